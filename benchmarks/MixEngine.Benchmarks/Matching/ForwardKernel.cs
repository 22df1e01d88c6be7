using System.Globalization;
using System.Runtime.CompilerServices;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>
/// The forward kernel of the search, drops to the three sums of X, Y and Z, beside a bare loop of the same operations that reads nothing
/// from memory: what the machine's arithmetic allows at best. One thread.
/// </summary>
internal static class ForwardKernel
{
    private const int Turns = 200;
    private const int Calls = 20_000;

    public static void Run()
    {
        switch (Machine.Lanes)
        {
            case 16:
                Compare<Lanes16>();
                break;
            case 8:
                Compare<Lanes8>();
                break;
            default:
                Compare<Lanes4>();
                break;
        }
    }

    private static void Compare<T>()
        where T : struct, ILanes<T>
    {
        var options = new MatchOptions();
        var target = MatchTarget.OfColor(HexColor.Parse("#5a6b3c").ToXyz(), ViewingCondition.Default);
        var scope = new SearchScope(new SearchShelf(InventedShelf.Of(64, seed: 1), options.View), new MatchObjective(target, options), options, []);
        var prefix = new AlignedFloats(2 * PaintBlocks.ColumnRows);
        for (var row = 0; row < prefix.Count; row++)
        {
            prefix.At(row) = 2 * Unsafe.Add(ref scope.Blocks.Column(40), row);
        }

        var limits = scope.LimitsFor(1)[0];
        var (passed, light) = (0u, 0f);
        var (kernel, bare) = Stopwatches.Shortest(
            Turns,
            () =>
            {
                for (var call = 0; call < Calls; call++)
                {
                    passed += BandLanes<T>.Single(ref prefix.At(0), ref scope.Blocks.PaintLanes(call & 3), 1 + (call & 1), scope.Filters[0], limits);
                }
            },
            () => light += Bare<T>(Calls * SpectralGrid.Bands * (PaintBlocks.Lanes / T.Count) / 4));
        const double mixtures = (double)Calls * PaintBlocks.Lanes;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"kernel lanes={T.Count} mixtures_per_s={mixtures / kernel:0} bound_per_s={mixtures / bare:0} share={bare / kernel:0.00} ns_per_mixture={kernel / mixtures * 1e9:0.00} (control {passed} {light:0})"));
    }

    // Four rows at once: K and S of a row, the light that leaves, and its share in three sums. All that it needs lies in registers.
    [MethodImpl(MethodImplOptions.AggressiveOptimization | MethodImplOptions.NoInlining)]
    private static float Bare<T>(int rounds)
        where T : struct, ILanes<T>
    {
        T x0 = default, x1 = default, x2 = default, x3 = default;
        T y0 = default, y1 = default, y2 = default, y3 = default;
        T z0 = default, z1 = default, z2 = default, z3 = default;
        var (n, step, start) = (T.All(1), T.All(1e-7f), T.All(0.3f));
        var (p0, p1, p2, p3) = (T.All(0.1f), T.All(0.2f), T.All(0.3f), T.All(0.4f));
        var (wx, wy, wz) = (T.All(0.5f), T.All(0.6f), T.All(0.7f));
        for (var round = 0; round < rounds; round++)
        {
            var g = BandLanes<T>.Light(T.MultiplyAdd(n, p0, start), T.MultiplyAdd(n, p1, start));
            (x0, y0, z0) = (T.MultiplyAdd(g, wx, x0), T.MultiplyAdd(g, wy, y0), T.MultiplyAdd(g, wz, z0));
            g = BandLanes<T>.Light(T.MultiplyAdd(n, p1, start), T.MultiplyAdd(n, p2, start));
            (x1, y1, z1) = (T.MultiplyAdd(g, wx, x1), T.MultiplyAdd(g, wy, y1), T.MultiplyAdd(g, wz, z1));
            g = BandLanes<T>.Light(T.MultiplyAdd(n, p2, start), T.MultiplyAdd(n, p3, start));
            (x2, y2, z2) = (T.MultiplyAdd(g, wx, x2), T.MultiplyAdd(g, wy, y2), T.MultiplyAdd(g, wz, z2));
            g = BandLanes<T>.Light(T.MultiplyAdd(n, p3, start), T.MultiplyAdd(n, p0, start));
            (x3, y3, z3) = (T.MultiplyAdd(g, wx, x3), T.MultiplyAdd(g, wy, y3), T.MultiplyAdd(g, wz, z3));
            n += step;
        }

        return T.AtMost(x0 + x1 + x2 + x3, y0 + y1 + y2 + y3) + T.AtMost(x0, z0 + z1 + z2 + z3);
    }
}
