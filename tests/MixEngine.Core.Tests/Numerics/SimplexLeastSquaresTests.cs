using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace MixEngine.Core.Tests.Numerics;

public class SimplexLeastSquaresTests
{
    private static readonly Gen<double[][]> Columns = Gen.Double[-1, 1].Array[4].Array[1, 6];

    private static Vector<double> V(params double[] values) => Vector<double>.Build.Dense(values);

    [Fact]
    public void Shares_are_shares_and_the_optimality_conditions_hold() => Columns.SelectMany(columns => Gen.Double[-1, 1].Array[4].Select(b => (columns, b))).Sample(pair =>
    {
        var columns = pair.columns.Select(V).ToArray();
        var b = V(pair.b);
        var found = SimplexLeastSquares.Solve(columns, b);

        Assert.True(found.Converged);
        Assert.All(found.Shares, share => Assert.InRange(share, 0, 1));
        Assert.Equal(1, found.Shares.Sum(), 12);

        // At the minimum no column pulls further towards b than the point found does (Karush-Kuhn-Tucker).
        var rest = columns.Zip(found.Shares, (column, share) => column * share).Aggregate((x, y) => x + y) - b;
        Assert.Equal(rest.L2Norm(), found.Residual, 9);
        // A pull of g gains g² in the squared distance, which rounding swallows below about 1e-8.
        Assert.All(columns, column => Assert.True(rest.DotProduct(column - b) >= rest.DotProduct(rest) - 1e-7));
    }, iter: 2000);

    [Fact]
    public void The_same_column_twice_does_no_harm()
    {
        var found = SimplexLeastSquares.Solve([V(1, 0, 0), V(1, 0, 0), V(0, 1, 0)], V(0.5, 0.5, 0));
        Assert.True(found.Converged);
        Assert.Equal(0, found.Residual, 9);
        Assert.Equal(0.5, found.Shares[0] + found.Shares[1], 9);
    }

    [Fact]
    public void A_zero_target_gets_the_nearest_shares()
    {
        var found = SimplexLeastSquares.Solve([V(1, 0), V(0, 1)], V(0, 0));
        Assert.True(found.Converged);
        Assert.Equal(0.5, found.Shares[0], 9);
    }

    [Fact]
    public void A_target_that_is_exactly_one_column_is_that_column()
    {
        var found = SimplexLeastSquares.Solve([V(1, 2, 3), V(3, 1, 0), V(0, 1, 1)], V(3, 1, 0));
        Assert.Equal([0, 1, 0], found.Shares);
        Assert.Equal(0, found.Residual);
    }

    [Fact]
    public void One_column_has_all_of_the_share() => Assert.Equal([1], SimplexLeastSquares.Solve([V(1, 2)], V(-5, 7)).Shares);

    [Fact]
    public void Two_hundred_nearly_parallel_greys_end_with_a_status()
    {
        var greys = Enumerable.Range(0, 200).Select(i => V([.. Enumerable.Range(0, 36).Select(band => 0.2 + i * 1e-3 + 1e-9 * ((i * 37 + band * 11) % 17))])).ToArray();
        var found = SimplexLeastSquares.Solve(greys, Vector<double>.Build.Dense(36, 0.3333));
        Assert.True(found.Converged);
        Assert.Equal(1, found.Shares.Sum(), 9);
        Assert.True(found.Residual < 1e-6);
    }

    [Fact]
    public void All_columns_at_the_target_end_at_once()
    {
        var found = SimplexLeastSquares.Solve([V(0, 0), V(0, 0), V(0, 0)], V(0, 0));
        Assert.True(found.Converged);
        Assert.Equal(0, found.Residual);
    }

    [Fact]
    public void No_column_is_refused() => Assert.Throws<ArgumentException>(() => SimplexLeastSquares.Solve([], V(1)));
}
