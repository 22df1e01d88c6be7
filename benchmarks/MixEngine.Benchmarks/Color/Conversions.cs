using System.Globalization;
using System.Text.Json;
using MixEngine.Benchmarks.Matching;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Color;

/// <summary>Spectra to X, Y, Z to CIELAB to CIEDE2000 in bulk, one thread, beside the general-purpose libraries that the tests compare values with.</summary>
internal static class Conversions
{
    private const int Spectra = 20_000;

    public static int Run()
    {
        // Half and half of any two paints.
        var condition = ViewingCondition.Default;
        var weights = TristimulusWeights.For(condition);
        var shelf = InventedShelf.Of(200, seed: 3);
        var spectra = Enumerable.Range(0, Spectra).Select(i => Prediction.AppearanceOf(
            new Recipe([new(shelf[i % 199], 1), new(shelf[199], 1 + i / 199)]), View.Default).Reflectance.Values.ToArray()).ToArray();
        var aim = new Lab(43, -12, 24);
        var sum = 0.0;
        var (ours, _) = Stopwatches.Shortest(
            50,
            () =>
            {
                sum = 0;
                foreach (var spectrum in spectra)
                {
                    sum += DeltaE2000.Between(aim, Lab.FromXyz(weights.ToXyz(spectrum), weights.White));
                }
            },
            () => { });

        // The others, which are installed beside this program as the tests install them.
        var folder = Path.Combine(AppContext.BaseDirectory, "Peers");
        var file = Path.Combine(folder, "spectra.json");
        File.WriteAllText(file, JsonSerializer.Serialize(new { spectra, weights = new[] { weights.X.ToArray(), weights.Y.ToArray(), weights.Z.ToArray() }, aim = new[] { aim.L, aim.A, aim.B } }));
        if ((!Directory.Exists(Path.Combine(folder, "node_modules")) && Child.Run("npm", "ci --no-audit --no-fund --ignore-scripts", folder) is null)
            || Child.Run("node", "color.mjs spectra.json", folder) is not { } answer)
        {
            Console.Error.WriteLine("It needs node and npm.");
            return 1;
        }

        using var told = JsonDocument.Parse(answer);
        foreach (var library in told.RootElement.EnumerateObject())
        {
            var theirs = library.Value.GetProperty("seconds").GetDouble();
            var mean = library.Value.GetProperty("sum").GetDouble() / Spectra;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"color spectra={Spectra} library={library.Name} theirs_ns={theirs / Spectra * 1e9:0} ours_ns={ours / Spectra * 1e9:0} ratio={theirs / ours:0.0} mean_dE00_theirs={mean:0.000} mean_dE00_ours={sum / Spectra:0.000}"));
        }

        return 0;
    }
}
