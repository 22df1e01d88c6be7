namespace MixEngine.Spreadsheet.Tests;

/// <summary>The add-in for Excel, as far as it can be tried without Excel.</summary>
public sealed class ExcelTests
{
    [Fact]
    public async Task ItPassesItsOwnTestsAgainstTheRealService()
    {
        Assert.SkipUnless(ToolRun.Has("node") && ToolRun.Has("npm"), "Node.js is not installed: apt-get install nodejs npm.");
        await PythonTests.PassAsync("Excel.test_addin");
    }

    [Fact]
    public async Task TheServiceHandsItOutOverHttps()
    {
        Assert.SkipUnless(ToolRun.Has("openssl"), "openssl, which makes a certificate to try it with, is not installed.");
        await PythonTests.PassAsync("Excel.test_https");
    }

    [Fact]
    public async Task AnExportedShelfIsPainted()
    {
        Assert.SkipUnless((await ToolRun.OfAsync("tests", PythonTests.Interpreter, "-c", "import openpyxl")).ExitCode == 0, "openpyxl is not installed: apt-get install python3-openpyxl.");
        await PythonTests.PassAsync("Excel.test_export");
    }
}
