namespace MixEngine.Spreadsheet.Tests;

/// <summary>The add-in for Calc, in a real office against the real service.</summary>
public sealed class CalcTests
{
    [Theory]
    [InlineData("test_cells")]
    [InlineData("test_desk")]
    [InlineData("test_build")]
    public Task WithoutOffice(string module) => PythonTests.PassAsync($"Calc.{module}");

    [Theory]
    [InlineData("AnswersTest")]
    [InlineData("CommandsTest")]
    [InlineData("OutageTest")]
    [InlineData("GermanOfficeTest")]
    [InlineData("WithoutExtensionTest")]
    [InlineData("InstalledByCommandTest")]
    public async Task InCalc(string tests)
    {
        Assert.SkipUnless(ToolRun.Has("soffice") && ToolRun.Has("unopkg"), "LibreOffice is not installed: apt-get install libreoffice-calc-nogui.");
        Assert.SkipUnless((await ToolRun.OfAsync("tests", PythonTests.Interpreter, "-c", "import uno")).ExitCode == 0, "Python's bridge to LibreOffice is not installed: apt-get install python3-uno.");
        Assert.SkipWhen(tests == "GermanOfficeTest" && !Directory.Exists("/usr/lib/libreoffice/program/resource/de"), "LibreOffice speaks no German: apt-get install libreoffice-l10n-de.");
        await PythonTests.PassAsync($"Calc.test_office.{tests}");
    }
}
