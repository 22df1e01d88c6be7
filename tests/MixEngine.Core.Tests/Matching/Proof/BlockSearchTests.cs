using MixEngine.Colorimetry;
using static MixEngine.Core.Tests.InventedPaints;

namespace MixEngine.Core.Tests.Matching;

public class BlockSearchTests
{
    private static readonly Paint[] Many = [.. Enumerable.Range(0, 40).Select(i => Of($"p{i:00}", $"#{(i * 37 + 20) % 236 + 10:x2}{(i * 91 + 70) % 236 + 10:x2}{(i * 53 + 140) % 236 + 10:x2}", (OpacityWord)(i % 4)))];

    private static SearchScope Scope(Recipe? start = null)
    {
        var options = new MatchOptions();
        var target = MatchTarget.OfColor(HexColor.Parse("#5a6b3c").ToXyz(), ViewingCondition.Default);
        return new(new SearchShelf(Many, options.View, start), new MatchObjective(target, options), options, []);
    }

    [Fact]
    public void It_meets_every_recipe_exactly_once_when_nothing_is_ruled_out()
    {
        foreach (var start in new[] { null, new Recipe([new(Kelp, 2)]) })
        {
            var scope = Scope(start);
            for (var paints = 1; paints <= 3; paints++)
            {
                var sink = new WithinSink(-1, 1e6, scope.LimitsFor(1e6), _ => true);
                Assert.True(new ShelfSearch(scope, paints, 1, 6).Run(sink, 1, TestContext.Current.CancellationToken));
                var count = RecipeCount.Of(scope, new() { Paints = paints, Drops = 6 }) - (paints > 1 ? RecipeCount.Of(scope, new() { Paints = paints - 1, Drops = 6 }) : start is null ? 0 : 1);
                Assert.Equal(count, sink.Found.Count);
                Assert.Equal(count, sink.Found.Select(one => one.Candidate).Distinct().Count());
            }
        }
    }

    [Fact]
    public void It_allocates_nothing_while_it_searches()
    {
        var scope = Scope();
        var compositions = new CompositionTree(3, 3, 20, onBase: false);
        var domains = RoleDomains.All(scope.Blocks, 3, [], new HashSet<int>()).Single();
        var sink = new WithinSink(-1, 2, scope.LimitsFor(2), _ => false);
        var search = new BlockSearch(scope, compositions, domains, sink, TestContext.Current.CancellationToken);
        search.Search(0);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var piece = 0; piece < BlockSearch.Pieces(scope.Blocks, 3); piece++)
        {
            search.Search(piece);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    [Fact]
    public void Cells_hold_all_compositions_and_their_generators_span_them()
    {
        foreach (var (paints, most, onBase) in new[] { (1, 5, true), (2, 12, false), (2, 9, true), (3, 6, false), (3, 24, false), (3, 11, true) })
        {
            var tree = new CompositionTree(paints, paints, most, onBase);
            Assert.Equal(tree.Compositions.Length, tree.Compositions.Distinct().Count());
            Assert.Equal(tree.Compositions.Length, tree.Cells[0].Count);
            foreach (var cell in tree.Cells)
            {
                var children = tree.Cells.AsSpan(cell.FirstChild, cell.Children).ToArray();
                Assert.True(cell.Children == 0 ? cell.Count == 1 : cell.Count == children.Sum(child => child.Count));
                foreach (var (a, b, c) in tree.Compositions.AsSpan(cell.First, cell.Count))
                {
                    // Nearest combination of the generators with factors of 0 or more that add up to 1: it must be the composition's own shares.
                    double sum = a + b + c + (onBase ? 1 : 0);
                    var shares = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([a / sum, b / sum, c / sum, onBase ? 1 / sum : 0]);
                    var generators = Enumerable.Range(0, cell.Generators)
                        .Select(g => MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense(4, part => tree.Generator(cell, g, part))).ToArray();
                    Assert.True(SimplexLeastSquares.Solve(generators, shares).Residual < 1e-6);
                }
            }
        }
    }
}
