using CsCheck;

namespace MixEngine.Core.Tests.Schemes;

public sealed class CorePaintsTests
{
    private const int Paints = 12;

    // Demands that are met by one to six sets of one to three paints.
    private static readonly Gen<int[][][]> Demands = Gen.Int[0, Paints - 1].Array[1, 3].Select(set => set.Distinct().ToArray()).Array[1, 6].Array[1, 20];

    private static readonly Gen<bool[]> OnTable = Gen.Bool.Array[Paints];

    [Fact]
    public void Every_demand_can_be_met_and_no_bottle_can_be_spared() => Demands.Select(OnTable).Sample((demands, onTable) =>
    {
        var core = CorePaints.Of(Paints, demands, onTable);
        Assert.True(Meets(demands, core));
        for (var paint = 0; paint < Paints; paint++)
        {
            if (core[paint])
            {
                bool[] without = [.. core];
                without[paint] = false;
                Assert.False(Meets(demands, without));
            }
        }
    });

    [Fact]
    public void A_bottle_on_the_table_is_kept_before_its_equal()
    {
        int[][][] either = [[[3], [7]]];
        Assert.True(CorePaints.Of(Paints, either, [.. Enumerable.Range(0, Paints).Select(paint => paint == 3)])[3]);
        Assert.True(CorePaints.Of(Paints, either, [.. Enumerable.Range(0, Paints).Select(paint => paint == 7)])[7]);
    }

    private static bool Meets(int[][][] demands, bool[] taken) => demands.All(sets => sets.Any(set => set.All(paint => taken[paint])));
}
