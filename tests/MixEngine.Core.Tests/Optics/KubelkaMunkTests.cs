using CsCheck;
using MixEngine.Core.Tests.PublishedValues;

namespace MixEngine.Core.Tests.Optics;

public class KubelkaMunkTests
{
    // Ten decimals are printed: half a digit is 5e-11; the first column is rounded too, so that its own half digit is let through.
    private const double HalfDigit = 6e-11;

    private static readonly Gen<double> Reflectances = Gen.Double[0.001, 0.999];
    private static readonly Gen<(double K, double S)> Optics = Gen.Select(Gen.Double[-9, 4], Gen.Double[-9, 4], (k, s) => (Math.Exp(k), Math.Exp(s)));

    [Fact]
    public void Ratio_of_a_hiding_film_agrees_with_Kubelka_and_Munk_1931() =>
        Assert.All(PublishedTable.Rows("kubelka-munk-ratio-from-reflectance.csv"), row =>
            Assert.Equal(row["K_over_S"], KubelkaMunk.AbsorptionToScattering(row["R_inf"]), HalfDigit));

    [Fact]
    public void Reflectance_of_a_hiding_film_agrees_with_Kubelka_and_Munk_1931() =>
        Assert.All(PublishedTable.Rows("kubelka-munk-reflectance-from-ratio.csv"), row =>
            Assert.Equal(row["R_inf"], KubelkaMunk.OpaqueReflectance(row["K_over_S"], 1), HalfDigit));

    [Fact]
    public void Film_over_a_backing_agrees_with_Kubelka_1948() =>
        Assert.All(PublishedTable.Rows("kubelka-film-over-backing.csv"), row =>
        {
            Assert.Equal(row["R"], KubelkaMunk.FilmOver(row["K"], row["S"], row["X"], row["Rg"]), HalfDigit);
            Assert.Equal(row["T_of_free_layer"], KubelkaMunk.Film(row["K"], row["S"], row["X"]).T, HalfDigit);
        });

    [Fact]
    public void Two_constant_mixtures_agree_with_Duncan_1940() =>
        Assert.All(PublishedTable.Rows("duncan-two-constant-mixing.csv"), row =>
        {
            var c = row["fraction_b"];
            var k = (1 - c) * row["K_a"] + c * row["K_b"];
            var s = (1 - c) * row["S_a"] + c * row["S_b"];
            Assert.Equal(row["R_inf_mix"], KubelkaMunk.OpaqueReflectance(k, s), HalfDigit);
        });

    [Fact]
    public void Contrast_ratio_agrees_with_the_table() =>
        Assert.All(PublishedTable.Rows("contrast-ratio.csv"), row =>
        {
            var (r0, t) = KubelkaMunk.Film(row["K"], row["S"], row["X"]);
            Assert.Equal(row["contrast_ratio_Rg0.80"], r0 / KubelkaMunk.Over(r0, t, 0.80), 6e-9);
        });

    [Fact]
    public void Scattering_power_for_98_percent_agrees_with_the_table() =>
        Assert.All(PublishedTable.Rows("scattering-power-for-098.csv"), row =>
        {
            var q = KubelkaMunk.AbsorptionToScattering(row["R_inf"]);
            var (r0, t) = KubelkaMunk.Film(q, 1, row["SX_for_contrast_0.98_over_Rg_0.80"]);
            Assert.Equal(0.98, r0 / KubelkaMunk.Over(r0, t, 0.80), 1e-8);
            Assert.Equal(row["R0_at_that_SX"], r0, 6e-9);
        });

    [Fact]
    public void Drawdown_gives_back_the_film_of_every_row_of_the_table() =>
        Assert.All(PublishedTable.Rows("kubelka-film-over-backing.csv").Where(row => row["T_of_free_layer"] > 0.01), row =>
        {
            double Over(double backing) => KubelkaMunk.FilmOver(row["K"], row["S"], row["X"], backing);
            var film = KubelkaMunk.FilmFromDrawdown(Over(0.03), Over(0.85), 0.03, 0.85);
            Assert.NotNull(film);
            Assert.Equal(row["K"] * row["X"], film.Value.AbsorbingPower, 1e-7);
            Assert.Equal(row["S"] * row["X"], film.Value.ScatteringPower, 1e-7);
        });

    [Fact]
    public void Hiding_film_and_its_ratio_are_inverse() =>
        Reflectances.Sample(r => Assert.Equal(r, KubelkaMunk.OpaqueReflectance(KubelkaMunk.AbsorptionToScattering(r), 1), 1e-12));

    [Fact]
    public void Energy_is_never_created() =>
        Gen.Select(Optics, Gen.Double[0, 200], Gen.Double[0, 1]).Sample((optics, x, backing) =>
        {
            var (r0, t) = KubelkaMunk.Film(optics.K, optics.S, x);
            Assert.InRange(r0, 0, 1);
            Assert.InRange(t, 0, 1);
            Assert.True(r0 + t <= 1 + 1e-12);
            Assert.InRange(KubelkaMunk.Over(r0, t, backing), 0, 1 + 1e-12);
        });

    [Fact]
    public void White_furnace_a_film_without_absorption_over_a_perfect_white_stays_white() =>
        Gen.Select(Gen.Double[0, 50], Gen.Double[0, 200]).Sample((s, x) => Assert.Equal(1, KubelkaMunk.FilmOver(0, s, x, 1), 1e-12));

    [Fact]
    public void Two_coats_of_x_are_one_of_2x() =>
        Gen.Select(Optics, Gen.Double[0, 50], Gen.Double[0, 1]).Sample((optics, x, backing) =>
        {
            var once = KubelkaMunk.FilmOver(optics.K, optics.S, 2 * x, backing);
            var twice = KubelkaMunk.FilmOver(optics.K, optics.S, x, KubelkaMunk.FilmOver(optics.K, optics.S, x, backing));
            Assert.Equal(once, twice, 1e-10);
        });

    [Fact]
    public void Brighter_backing_never_gives_a_darker_film() =>
        Gen.Select(Optics, Gen.Double[0, 50], Gen.Double[0, 1], Gen.Double[0, 1]).Sample((optics, x, one, other) =>
            Assert.True(KubelkaMunk.FilmOver(optics.K, optics.S, x, Math.Max(one, other)) >= KubelkaMunk.FilmOver(optics.K, optics.S, x, Math.Min(one, other)) - 1e-15));

    [Fact]
    public void Thick_film_forgets_its_backing() =>
        Gen.Select(Gen.Double[0.01, 5], Gen.Double[0.01, 5], Gen.Double[0, 1]).Sample((k, s, backing) =>
            Assert.Equal(KubelkaMunk.OpaqueReflectance(k, s), KubelkaMunk.FilmOver(k, s, 1e4, backing), 1e-12));

    [Theory]
    [InlineData(0, 0, 5, 0.4, 0.4)] // Nothing in it: the backing shows.
    [InlineData(3, 2, 0, 0.4, 0.4)] // No thickness.
    [InlineData(0.2, 0, 5, 0.4, 0.054134113294645)] // Beer's law both ways: 0.4 exp(-2), computed.
    [InlineData(0, 2, 3, 0, 0.857142857142857)] // Pure scattering: SX/(1+SX) = 6/7.
    [InlineData(1e9, 1e-9, 1e9, 0.4, 0)] // Absorbs all, and does not overflow.
    public void Limits_have_their_exact_values(double k, double s, double x, double backing, double expected) =>
        Assert.Equal(expected, KubelkaMunk.FilmOver(k, s, x, backing), 1e-14);

    [Fact]
    public void Film_is_continuous_where_its_formula_changes_form() =>
        Gen.Select(Gen.Double[1e-3, 10], Gen.Double[1e-3, 10], Gen.Bool.Select(first => first ? 1e-4 : 1.0)).Sample((k, s, border) =>
        {
            var x = border / Math.Sqrt(k * (k + 2 * s));
            var below = KubelkaMunk.Film(k, s, x * (1 - 1e-9));
            var above = KubelkaMunk.Film(k, s, x * (1 + 1e-9));
            Assert.Equal(below.R0, above.R0, 1e-8);
            Assert.Equal(below.T, above.T, 1e-8);
        });

    [Fact]
    public void Readings_that_no_film_gives_are_told_apart()
    {
        Assert.Null(KubelkaMunk.FilmFromDrawdown(0.5, 0.3, 0.05, 0.8)); // Darker over white than over black.
        Assert.Null(KubelkaMunk.FilmFromDrawdown(0.01, 0.8, 0.05, 0.8)); // Clearer than no film.
        Assert.Throws<ArgumentException>(() => KubelkaMunk.FilmFromDrawdown(0.2, 0.3, 0.8, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => KubelkaMunk.AbsorptionToScattering(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => KubelkaMunk.AbsorptionToScattering(double.NaN));
    }
}
