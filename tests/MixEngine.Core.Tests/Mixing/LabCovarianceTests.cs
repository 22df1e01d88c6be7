using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Mixing;

public sealed class LabCovarianceTests
{
    private static readonly Gen<Lab> AnyLab = Gen.Select(Gen.Double[1, 99], Gen.Double[-80, 80], Gen.Double[-80, 80]).Select((l, a, b) => new Lab(l, a, b));

    /// <summary>The moments of dᵀGd for normal d: tr(GC) and 2·tr(GCGC), by the matrices of MathNet.Numerics, the residual as a covariance of its own, r²·G⁻¹.</summary>
    [Fact]
    public void Has_the_moments_of_the_quadratic_form() =>
        Gen.Select(AnyLab, Gen.Select(AnyLab, AnyLab).Array[1, 12], Gen.Double[0, 2]).Sample((center, doubts, residual) =>
        {
            var covariance = new LabCovariance();
            var c = Matrix<double>.Build.Dense(3, 3);
            foreach (var (plus, minus) in doubts)
            {
                covariance.Add(plus, minus);
                var d = Vector<double>.Build.Dense([plus.L - minus.L, plus.A - minus.A, plus.B - minus.B]) / 2;
                c += d.OuterProduct(d);
            }

            var (ll, aa, bb, ab) = DeltaE2000.MetricAt(center);
            var g = Matrix<double>.Build.DenseOfArray(new[,] { { ll, 0, 0 }, { 0, aa, ab }, { 0, ab, bb } });
            var gc = g * (c + residual * residual * g.Inverse());
            var expected = ExpectedError.FromVariances(gc.Trace(), (gc * gc).Trace());
            var actual = covariance.ToExpectedError(center, residual);
            Assert.Equal(expected.Likely, actual.Likely, 1e-6 * (1 + expected.Likely));
            Assert.Equal(expected.Bound, actual.Bound, 1e-6 * (1 + expected.Bound));
        }, iter: 500);
}
