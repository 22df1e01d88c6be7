using System.ComponentModel;
using System.Diagnostics;
using System.Text.Json;

namespace MixEngine.Colorimetry.Tests;

/// <summary>
/// What two independent, general-purpose colour libraries from npm (culori and colorjs.io, both MIT) compute for random colours.
/// Needs node and npm; without them, or without a way to the registry, the tests are skipped and say so.
/// </summary>
public sealed class PeerLibraries : IAsyncLifetime
{
    private const int Seed = 20240229;
    private const int Count = 4000;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    private string? _missing;
    private Answer? _answer;

    public IReadOnlyList<HexColor> Codes { get; private set; } = [];

    public IReadOnlyList<(Lab First, Lab Second)> Pairs { get; private set; } = [];

    public IReadOnlyList<OkLCh> Vivid { get; private set; } = [];

    public Answers Culori => Require().Culori;

    public Answers ColorJs => Require().Colorjs;

    public async ValueTask InitializeAsync()
    {
        // The same colours on every run.
        var random = new Random(Seed);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        Lab Color() => new(Between(0, 100), Between(-110, 110), Between(-110, 110));
        Codes = [.. Enumerable.Range(0, Count).Select(_ => new HexColor((byte)random.Next(256), (byte)random.Next(256), (byte)random.Next(256)))];

        // Half of the pairs anywhere, half of them near each other, where formulas are used.
        Pairs = [.. Enumerable.Range(0, Count).Select(i =>
        {
            var first = Color();
            var near = new Lab(first.L + Between(-5, 5), first.A + Between(-5, 5), first.B + Between(-5, 5));
            return (first, i % 2 == 0 ? Color() : near);
        })];
        Vivid = [.. Enumerable.Range(0, Count).Select(_ => new OkLCh(Between(0.02, 0.98), Between(0.05, 0.45), Between(0, 360)))];

        var folder = Path.Combine(AppContext.BaseDirectory, "Peers");
        try
        {
            // npm writes this file last: an installation that was broken off is made again.
            if (!File.Exists(Path.Combine(folder, "node_modules", ".package-lock.json")))
            {
                await Run(OperatingSystem.IsWindows() ? "npm.cmd" : "npm", "ci --no-audit --no-fund --ignore-scripts", folder, "");
            }

            var question = JsonSerializer.Serialize(new
            {
                codes = Codes.Select(code => code.ToString()),
                pairs = Pairs.Select(pair => new[] { pair.First.L, pair.First.A, pair.First.B, pair.Second.L, pair.Second.A, pair.Second.B }),
                vivid = Vivid.Select(color => new[] { color.L, color.C, color.HueDegrees!.Value }),
            });
            _answer = JsonSerializer.Deserialize<Answer>(await Run("node", "peers.mjs", folder, question), Json);
        }
        catch (Win32Exception error)
        {
            _missing = $"node and npm are needed to ask the peer libraries: {error.Message}";
        }
        catch (InstallationException error)
        {
            _missing = $"The peer libraries could not be installed: {error.Message}";
        }
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private Answer Require()
    {
        Assert.SkipWhen(_missing is not null, _missing ?? "");
        return _answer!;
    }

    private static async Task<string> Run(string program, string arguments, string folder, string input)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;

        // Both outputs are read while the input is written, so that no pipe fills up.
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEndAsync();
        await process.StandardInput.WriteAsync(input);
        process.StandardInput.Close();
        await process.WaitForExitAsync();
        return process.ExitCode == 0 ? await output
            : program == "node" ? throw new InvalidOperationException(await errors)
            : throw new InstallationException(await errors);
    }

    private sealed class InstallationException(string message) : Exception(message);

    private sealed record Answer(Answers Culori, Answers Colorjs);

    public sealed record Answers(Code[] Codes, Pair[] Pairs, double[][] Vivid);

    /// <summary>One colour code in several spaces; XYZ with Y = 1.</summary>
    public sealed record Code(double[] Xyz, double[] Lab, double[] Oklab, double[] D50, double[] Cam16);

    /// <summary>The differences of one pair; a library offers only some of them.</summary>
    public sealed record Pair(double? Ciede2000, double? Cie94, double? Cmc21, double? Cmc11, double? Cie76);
}
