using CsCheck;

namespace MixEngine.Core.Tests.Numerics;

public class WholeDropsTests
{
    [Fact]
    public void Thirds_in_ten_parts_add_up_and_ties_go_to_the_first() =>
        Assert.Equal([4, 3, 3], WholeDrops.Split([0.335, 0.335, 0.330], 10));

    [Fact]
    public void A_strong_tinter_is_not_silently_dropped() =>
        Assert.Equal([6, 3, 1], WholeDrops.Split([0.65, 0.33, 0.02], 10));

    [Fact]
    public void Drops_always_add_up_and_keep_every_paint() =>
        Gen.Double[0, 1].Array[1, 4].Where(shares => shares.Sum() > 1e-3).Sample(raw =>
        {
            var shares = raw.Select(share => share / raw.Sum()).ToArray();
            foreach (var total in new[] { 4, 5, 12, 80 })
            {
                var drops = WholeDrops.Split(shares, total);
                Assert.Equal(total, drops.Sum());
                Assert.All(shares.Zip(drops), pair => Assert.True(pair.First > 0 ? pair.Second >= 1 : pair.Second == 0));
                Assert.Equal(drops, WholeDrops.Split(shares, total));
            }
        });

    [Fact]
    public void Too_few_drops_are_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => WholeDrops.Split([0.5, 0.3, 0.2], 2));
}
