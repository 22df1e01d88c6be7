namespace MixEngine.Spreadsheet.Tests;

/// <summary>The add-in for Calc: its tests are written in Python, for only Python drives Calc from outside.</summary>
public sealed class CalcTests
{
    // The distribution's own Python: that is the one which knows Calc.
    private const string Python = "/usr/bin/python3";

    [Theory]
    [InlineData("test_cells")]
    [InlineData("test_desk")]
    [InlineData("test_build")]
    public async Task WithoutOffice(string module)
    {
        Assert.SkipUnless(File.Exists(Python), $"{Python} is not there.");
        await PassesAsync($"Calc.{module}");
    }

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
        Assert.SkipUnless((await ToolRun.OfAsync("tests", Python, "-c", "import uno")).ExitCode == 0, "Python's bridge to LibreOffice is not installed: apt-get install python3-uno.");
        Assert.SkipWhen(tests == "GermanOfficeTest" && !Directory.Exists("/usr/lib/libreoffice/program/resource/de"), "LibreOffice speaks no German: apt-get install libreoffice-l10n-de.");
        await PassesAsync($"Calc.test_office.{tests}");
    }

    private static async Task PassesAsync(string tests)
    {
        var run = await ToolRun.OfAsync("tests/MixEngine.Spreadsheet.Tests", Python, "-m", "unittest", tests);
        Assert.True(run.ExitCode == 0, run.Output);
        Assert.Matches(@"Ran [1-9][0-9]* tests?", run.Output);
    }
}
