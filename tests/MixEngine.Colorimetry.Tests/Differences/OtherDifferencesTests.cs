using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class OtherDifferencesTests
{
    [Fact]
    public void CIE94_and_CMC_have_the_values_of_a_general_library()
    {
        var table = PublishedTable.Load("cie94-cmc-library.csv");
        foreach (var row in table.Rows)
        {
            var standard = new Lab(row["L1"], row["a1"], row["b1"]);
            var sample = new Lab(row["L2"], row["a2"], row["b2"]);
            var actual = (row.Text("formula"), row.Text("options")) switch
            {
                ("CIE94", "{}") => DeltaE94.GraphicArts(standard, sample),
                ("CIE94", _) => DeltaE94.Textiles(standard, sample),
                ("CMC", "{}") => DeltaECmc.Between(standard, sample),
                _ => DeltaECmc.Between(standard, sample, l: 1),
            };

            // CMC is printed to eight decimals there, CIE94 to full precision.
            Assert.Equal(row["dE"], actual, row.Text("formula") == "CMC" ? 5e-9 : 1e-11);
        }
    }

    [Fact]
    public void A_step_in_lightness_alone_is_weighted_as_the_standards_say()
    {
        // The library's values have no step in lightness. CIE94: dL / kL. CMC at L = 50: SL = 0.040975 * 50 / (1 + 0.01765 * 50). (computed)
        var (standard, sample) = (new Lab(50, 0, 0), new Lab(54, 0, 0));
        Assert.Equal(4, DeltaE94.GraphicArts(standard, sample), 1e-12);
        Assert.Equal(2, DeltaE94.Textiles(standard, sample), 1e-12);
        Assert.Equal(4 / 1.08831341301461, DeltaECmc.Between(standard, sample, l: 1), 1e-12);
        Assert.Equal(2 / 1.08831341301461, DeltaECmc.Between(standard, sample), 1e-12);
        Assert.Equal(4 / 0.511, DeltaECmc.Between(standard with { L = 15.9 }, sample with { L = 19.9 }, l: 1), 1e-12);
    }

    [Fact]
    public void They_are_finite_never_negative_and_zero_for_the_same_colour() =>
        Gen.Select(Arbitrary.Lab, Arbitrary.Lab).Sample((first, second) =>
        {
            Func<Lab, Lab, double>[] formulas = [DeltaE76.Between, DeltaE94.GraphicArts, DeltaE94.Textiles, (a, b) => DeltaECmc.Between(a, b)];
            Assert.All(formulas, formula =>
            {
                Assert.Equal(0, formula(first, first));
                Assert.True(double.IsFinite(formula(first, second)) && formula(first, second) >= 0);
            });
        });

    [Fact]
    public void Plain_distances_are_metrics() =>
        Gen.Select(Arbitrary.Lab, Arbitrary.Lab, Arbitrary.Lab).Sample((a, b, c) =>
        {
            Assert.Equal(DeltaE76.Between(a, b), DeltaE76.Between(b, a));
            Assert.True(DeltaE76.Between(a, c) <= DeltaE76.Between(a, b) + DeltaE76.Between(b, c) + 1e-9);
            var (u, v) = (new Cam16Ucs(a.L, a.A, a.B), new Cam16Ucs(b.L, b.A, b.B));
            Assert.Equal(DeltaE76.Between(a, b), DeltaECam16Ucs.Between(u, v), 1e-12);
        });

    [Theory]
    [InlineData(0, 1)]
    [InlineData(2, -1)]
    public void CMC_refuses_a_tolerance_that_is_not_above_zero(double l, double c) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DeltaECmc.Between(default, default, l, c));
}
