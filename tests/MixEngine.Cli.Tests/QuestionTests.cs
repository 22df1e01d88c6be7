using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>A line that is no question is refused with what was given, what was expected and what to do: exit code 1, nothing on standard output.</summary>
public sealed class QuestionTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Theory]
    [InlineData("Ask one of: demo, shelf")]
    [InlineData("\"pedict\" is not a command. Did you mean predict?", "pedict", "kelp")]
    [InlineData("\"lst\" is not a command. Did you mean list?", "shelf", "lst")]
    [InlineData("--jsn is not an option of predict. Did you mean --json?", "predict", "kelp", "--jsn")]
    [InlineData("--stps is not an option of ramp. Did you mean --steps?", "ramp", "kelp", "peat", "--stps", "3")]
    [InlineData("--steps: \"0\" cannot be used. Give a whole number, 1 or more", "ramp", "kelp", "peat", "--steps", "0")]
    [InlineData("--coats: \"0\" cannot be used", "glaze", "kelp", "--over", "black", "--coats", "0")]
    [InlineData("--drops: \"six\" cannot be used", "match", "#5a6b3c", "--drops", "six")]
    [InlineData("--drops: \"99999999999\" cannot be used", "match", "#5a6b3c", "--drops", "99999999999")]
    [InlineData("--medium: \"6,5\" cannot be used. Give a number, 0 or more, with a point before its decimals", "glaze", "kelp", "--over", "black", "--medium", "6,5")]
    [InlineData("--medium: \"NaN\" cannot be used", "glaze", "kelp", "--over", "black", "--medium", "NaN")]
    [InlineData("--film: \"Infinity\" cannot be used", "cover", "kelp", "--film", "Infinity")]
    [InlineData("In a shell a bare # begins a comment", "match")]
    [InlineData("In a shell a bare # begins a comment", "glaze", "kelp", "--over")]
    [InlineData("Required argument 'paints' missing", "ramp", "kelp")]
    [InlineData("--json and --csv: an answer has one form", "predict", "kelp", "--json", "--csv")]
    [InlineData("--json: a story has no JSON", "demo", "--json")]
    [InlineData("--server: \"somewhere\" is not an address", "predict", "kelp", "--server", "somewhere")]
    [InlineData("--server: \"localhost\" is not an address", "predict", "kelp", "--server", "localhost")]
    [InlineData("--server: \"ftp://localhost:21\" is not an address", "predict", "kelp", "--server", "ftp://localhost:21")]
    [InlineData("There is no file my-paint.csv. Name a table", "shelf", "import", "my-paint.csv")]
    [InlineData("There is no file nowhere/my-paint.csv, nor a folder", "shelf", "import", "nowhere/my-paint.csv")]
    public async Task ALineThatIsNoQuestionIsRefused(string said, params string[] arguments)
    {
        Outcome outcome = await _home.RunAsync(arguments);

        outcome.Ended(1);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.StartsWith("mixengine: ", outcome.Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Output);
        Assert.Null(_home.BackgroundService);
    }

    [Fact]
    public async Task AFileOfAnotherEndingIsNamed()
    {
        _home.Write("My-Paints.csv", "name,hex\n");

        Outcome outcome = await _home.RunAsync("shelf", "import", "my-paints.xlsx");

        outcome.Ended(1);
        Assert.Contains("(there is My-Paints.csv)", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AFolderIsNoTable()
    {
        Outcome outcome = await _home.RunAsync("shelf", "import", ".");

        outcome.Ended(1);
        Assert.Contains(". is a folder.", outcome.Error, StringComparison.Ordinal);
    }

    /// <summary>The refusal names the size and the limit, and comes before anything is sent.</summary>
    [Fact]
    public async Task AFileThatIsTooLargeIsRefusedWithItsSizeAndTheLimit()
    {
        string path = Path.Combine(_home.Folder, "large.csv");
        using (FileStream file = File.Create(path))
        {
            file.SetLength((16 << 20) + 1);
        }

        Outcome outcome = await _home.RunAsync("shelf", "import", path);

        outcome.Ended(1);
        Assert.Contains("has 16777217 bytes, and a table may have 16777216 (16 MiB)", outcome.Error, StringComparison.Ordinal);
        Assert.Null(_home.BackgroundService);
    }

    [Fact]
    public async Task ASocketsPathThatIsTooLongIsRefusedWithTheWayOut()
    {
        _home.Variables["MIXENGINE_SOCKET"] = "/tmp/" + new string('x', 120) + ".sock";

        Outcome outcome = await _home.RunAsync("predict", "kelp");

        outcome.Ended(1);
        Assert.Contains("MIXENGINE_SOCKET", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task EveryCommandExplainsItself()
    {
        Outcome outcome = await _home.RunAsync("--help");

        outcome.Ended(0);
        string[] commands = ["demo", "shelf", "predict", "ramp", "match", "glaze", "cover", "scheme", "mix", "serve"];
        Assert.All(commands, command => Assert.Contains("\n  " + command, outcome.Output, StringComparison.Ordinal));
        Assert.Contains("0 answered, 1 refused", outcome.Output, StringComparison.Ordinal);
    }
}
