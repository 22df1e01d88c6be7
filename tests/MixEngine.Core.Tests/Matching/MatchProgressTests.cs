using CsCheck;
using MixEngine.Colorimetry;
using static MixEngine.Core.Tests.InventedPaints;

namespace MixEngine.Core.Tests.Matching;

/// <summary>What is told on the way: recipes of the shelf, ever nearer, and bounds that hold.</summary>
public class MatchProgressTests
{
    [Fact]
    public void What_is_told_on_the_way_holds_at_the_end() =>
        Gen.Select(Any.Array[20, 40], Gen.Int[6, 12], Gen.Double[10, 90], Gen.Double[-60, 60], Gen.Double[-60, 60]).Sample(
            (paints, drops, l, a, b) =>
            {
                Paint[] shelf = [.. paints.Select((paint, i) => paint with { Id = $"{i:00}" })];
                var target = MatchTarget.OfLab(new Lab(l, a, b), ViewingCondition.Default);
                var told = new Told();
                var options = new MatchOptions { Drops = drops, Tolerance = 0, Threads = 1 };
                var found = RecipeSearch.Find(target, shelf, options, default, told);
                Assert.All(told.SoFar, soFar =>
                {
                    Assert.False(soFar.Proven);
                    Assert.True(soFar.Best.DeltaE00 >= found.Best.DeltaE00);
                    Assert.InRange(soFar.PossibleDeltaE00, 0, found.Best.DeltaE00 + 1e-9);
                });
                Assert.All(told.SoFar.Zip(told.SoFar.Skip(1)), pair => Assert.True(pair.First.Best.DeltaE00 >= pair.Second.Best.DeltaE00));
                Assert.All(told.Done, done => Assert.InRange(done, 0, 1));
            },
            iter: 30);

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(20)]
    public void A_search_that_is_stopped_bounds_what_is_left(int pieces) =>
        Gen.Select(Any.Array[33, 50], Gen.Double[10, 90], Gen.Double[-90, 90], Gen.Double[-90, 90]).Sample(
            (paints, l, a, b) =>
            {
                Paint[] shelf = [.. paints.Select((paint, i) => paint with { Id = $"{i:00}" })];
                var target = MatchTarget.OfLab(new Lab(l, a, b), ViewingCondition.Default);
                using var stop = new CancellationTokenSource();
                var options = new MatchOptions { Drops = 6, Tolerance = 0.2 };
                var stopped = RecipeSearch.Find(target, shelf, options with { Threads = 1 }, stop.Token, new StopAfter(pieces, stop));
                var whole = RecipeSearch.Find(target, shelf, options with { Tolerance = 0 });
                Assert.InRange(stopped.PossibleDeltaE00, 0, whole.Best.DeltaE00 + 1e-9);
            },
            iter: 20);

    [Fact]
    public void Nobody_is_answered_who_has_gone()
    {
        using var gone = new CancellationTokenSource();
        var target = MatchTarget.OfColor(HexColor.Parse("#ff00ff").ToXyz(), ViewingCondition.Default);
        Assert.Throws<OperationCanceledException>(
            () => RecipeSearch.Find(target, Shelf, new() { Drops = 20, Threads = 1 }, gone.Token, new StopAfter(1, gone), gone.Token));
    }

    private sealed class Told : IProgress<MatchProgress>
    {
        public List<MatchResult> SoFar { get; } = [];

        public List<double> Done { get; } = [];

        public void Report(MatchProgress value)
        {
            SoFar.Add(value.SoFar());
            Done.Add(value.Done);
        }
    }

    private sealed class StopAfter(int pieces, CancellationTokenSource stop) : IProgress<MatchProgress>
    {
        private int _left = pieces;

        public void Report(MatchProgress value)
        {
            if (--_left == 0)
            {
                stop.Cancel();
            }
        }
    }
}
