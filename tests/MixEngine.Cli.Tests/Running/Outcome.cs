using System.Text.Json;

namespace MixEngine.Cli.Tests.Running;

/// <summary>How one command ended.</summary>
public sealed record Outcome(int ExitCode, string Output, string Error)
{
    public string[] Lines => Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>The answer's JSON.</summary>
    public JsonElement Json => JsonDocument.Parse(Output).RootElement;

    /// <summary>The answer's table, header first.</summary>
    public IReadOnlyList<string[]> Csv => CsvText.Read(Output);

    /// <summary>Fails with everything the command said, unless it ended so.</summary>
    public Outcome Ended(int exitCode)
    {
        Assert.True(ExitCode == exitCode, $"exit code {ExitCode}, not {exitCode}\n--- output\n{Output}\n--- error\n{Error}");
        return this;
    }
}
