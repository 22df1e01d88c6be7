namespace MixEngine.Spreadsheet.Tests;

/// <summary>Tests that are written in Python, for only Python drives Calc from outside.</summary>
internal static class PythonTests
{
    /// <summary>The distribution's own Python: that is the one which knows Calc.</summary>
    public const string Interpreter = "/usr/bin/python3";

    /// <summary>Passes if all of them do, and there is at least one.</summary>
    public static async Task PassAsync(string tests)
    {
        Assert.SkipUnless(File.Exists(Interpreter), $"{Interpreter} is not there.");
        var run = await ToolRun.OfAsync("tests/MixEngine.Spreadsheet.Tests", Interpreter, "-m", "unittest", tests);
        Assert.True(run.ExitCode == 0, run.Output);
        Assert.Matches(@"Ran [1-9][0-9]* tests?", run.Output);
    }
}
