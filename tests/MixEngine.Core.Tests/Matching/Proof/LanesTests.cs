using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using CsCheck;
using MixEngine.Colorimetry;
using static MixEngine.Core.Tests.InventedPaints;

namespace MixEngine.Core.Tests.Matching;

/// <summary>No look at many mixtures, at any width of vectors, may rule out one that is within the limits.</summary>
public class LanesTests
{
    private static readonly Gen<Paint[]> Shelf = Gen.Select(Any, Gen.Double[-3, 3], Gen.Double[-3, 3], Gen.Double[0, 6])
        .Select((paint, strength, tilt, steep) => paint with
        {
            Optics = paint.Optics.Scaled(
                [.. Enumerable.Range(0, SpectralGrid.Bands).Select(band => Math.Exp(strength + tilt * (band - 18) / 18.0 + Math.Tanh(steep * (band - 20))))],
                [.. Enumerable.Range(0, SpectralGrid.Bands).Select(_ => Math.Exp(strength))], 1),
        }).Array[3, 16].Select(paints => paints.Select((paint, i) => paint with { Id = $"{i:00}" }).ToArray());

    [Fact]
    public void Four_lanes() => Holds<Lanes4>();

    [Fact]
    public void Eight_lanes() => Holds<Lanes8>();

    [Fact]
    public void Sixteen_lanes()
    {
        Assert.SkipUnless(Avx512F.IsSupported && Vector512.IsHardwareAccelerated, "This machine has no vectors of 512 bits.");
        Holds<Lanes16>();
    }

    [Fact]
    public void The_light_of_a_band_bends_no_more_than_the_patch_allows()
    {
        // g = 1/(q + 0.4 + root), root² = q² + 2q, over t = ln q; derivatives by central differences.
        static double Light(double t)
        {
            var q = Math.Exp(t);
            return 1 / (q + 0.4 + Math.Sqrt(q * q + 2 * q));
        }

        const double h = 1e-3;
        for (var t = -40.0; t < 30; t += 0.01)
        {
            var g = Light(t);
            var slope = Math.Abs(Light(t + h) - Light(t - h)) / (2 * h);
            var bend = Math.Abs(Light(t + h) - 2 * g + Light(t - h)) / (h * h);
            Assert.True(slope <= Math.Min(PatchLanes<Lanes4>.SlopeMost, g * (1 + 1e-5)), $"slope {slope} at {t}");
            Assert.True(bend <= Math.Min(PatchLanes<Lanes4>.BendMost, g * (1 + 1e-5)) + 1e-8, $"bend {bend} at {t}");
        }
    }

    private static void Holds<T>()
        where T : struct, ILanes<T> =>
        Gen.Select(Shelf, Gen.Double[0, 1].Array[3], Gen.Int[3, 24], Gen.Int[0, 1_000_000], OneOf(0.0, 0.01, 0.5)).Sample((shelf, off, most, seed, far) =>
        {
            var options = new MatchOptions();
            var random = new Random(seed);
            var laid = new SearchShelf(shelf, View.Default);
            var tree = new CompositionTree(3, 3, most, onBase: false);

            // Three paints, and for each cell one of its compositions: its own colour, or nearly so, is the target.
            var any = MatchTarget.OfLab(new Lab(50, 0, 0), ViewingCondition.Default);
            var blocks = new SearchScope(laid, new MatchObjective(any, options), options, []).Blocks;
            int[] slots = [.. Enumerable.Range(0, PaintBlocks.Lanes).Where(slot => blocks.PlaceOf(slot) >= 0).OrderBy(_ => random.Next()).Take(3)];
            for (var look = 0; look < 12; look++)
            {
                var cell = tree.Cells[random.Next(tree.Cells.Length)];
                var at = cell.First + random.Next(cell.Count);
                var (a, b, c) = tree.Compositions[at];
                var candidate = Candidate.Sorted((blocks.PlaceOf(slots[0]), a), (blocks.PlaceOf(slots[1]), b), (blocks.PlaceOf(slots[2]), c));
                var color = laid.ColorOf(candidate);
                var target = MatchTarget.OfLab(new Lab(color.L + far * off[0], color.A + far * off[1], color.B + far * off[2]), ViewingCondition.Default);
                var scope = new SearchScope(laid, new MatchObjective(target, options), options, []);
                var light = scope.Objective.Lights[0];
                var limits = scope.Filters[0].Limits(new Neighbourhood(light.Aim, scope.DifferenceOf(candidate) + 1e-8), T.Precision);
                Look<T>(scope, tree, cell, at, slots, limits);
            }
        }, iter: 150);

    private static void Look<T>(SearchScope scope, CompositionTree tree, CompositionCell cell, int at, int[] slots, float[] limits)
        where T : struct, ILanes<T>
    {
        var (blocks, filter) = (scope.Blocks, scope.Filters[0]);
        var (a, b, c) = tree.Compositions[at];
        var bit = 1u << slots[2] % PaintBlocks.Lanes;

        // By itself.
        var prefix = Columns(blocks, slots, [(a, b)]);
        Assert.True((BandLanes<T>.Single(ref prefix.At(0), ref blocks.PaintLanes(0), c, filter, limits) & bit) != 0, "single");
        Assert.True((BandLanes<T>.Compositions(
            ref blocks.StartColumn.At(0), ref blocks.Column(slots[0]), ref blocks.Column(slots[1]), ref blocks.Column(slots[2]), tree, at, filter, limits) & 1) != 0, "compositions");

        // With the others of its cell, band by band and as a patch.
        var shares = Enumerable.Range(0, cell.Generators).Select(g => (tree.Generator(cell, g, 0), tree.Generator(cell, g, 1))).ToArray();
        float[] last = [.. Enumerable.Range(0, cell.Generators).Select(g => tree.Generator(cell, g, 2))];
        prefix = Columns(blocks, slots, shares);
        Assert.True((BandLanes<T>.Cell(ref prefix.At(0), ref blocks.PaintLanes(0), last, filter, limits) & bit) != 0, "cell");
        if (cell.Generators == 3)
        {
            Assert.True((PatchLanes<T>.Look(ref prefix.At(0), ref blocks.PaintLanes(0), last, filter, limits) & bit) != 0, "patch");
        }

        // With all paints of the block in the second role.
        var hulls = Hulls(blocks, slots[0], shares);
        Assert.True((BandLanes<T>.GroupCell(ref hulls.At(0), ref blocks.PaintLanes(0), LaneShape.Paints, last, filter, limits) & bit) != 0, "group");
        Assert.True((BandLanes<T>.GroupCell(ref hulls.At(0), ref blocks.HullLanes(0), LaneShape.Blocks, last, filter, limits) & 1) != 0, "blocks");
        if (cell.Generators == 1)
        {
            Assert.True((BandLanes<T>.Group(ref hulls.At(0), ref blocks.PaintLanes(0), LaneShape.Paints, last[0], filter, limits) & bit) != 0, "group of one composition");
        }
    }

    private static AlignedFloats Columns(PaintBlocks blocks, int[] slots, (float A, float B)[] shares)
    {
        var columns = new AlignedFloats(shares.Length * 2 * PaintBlocks.ColumnRows);
        for (var i = 0; i < columns.Span.Length; i++)
        {
            var (generator, row) = Math.DivRem(i, 2 * PaintBlocks.ColumnRows);
            columns.At(i) = shares[generator].A * Unsafe.Add(ref blocks.Column(slots[0]), row)
                + shares[generator].B * Unsafe.Add(ref blocks.Column(slots[1]), row);
        }

        return columns;
    }

    private static AlignedFloats Hulls(PaintBlocks blocks, int first, (float A, float B)[] shares)
    {
        var columns = new AlignedFloats(shares.Length * PaintBlocks.Sides * PaintBlocks.ColumnRows);
        for (var i = 0; i < columns.Span.Length; i++)
        {
            var (generator, at) = Math.DivRem(i, PaintBlocks.Sides * PaintBlocks.ColumnRows);
            var (side, row) = Math.DivRem(at, PaintBlocks.ColumnRows);
            columns.At(i) = shares[generator].A * Unsafe.Add(ref blocks.Column(first), side / 2 * PaintBlocks.ColumnRows + row)
                + shares[generator].B * Unsafe.Add(ref blocks.HullColumn(0), at);
        }

        return columns;
    }

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
