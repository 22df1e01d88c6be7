using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Characterizations;

/// <summary>
/// What is learnt from swatches of paints whose optics are known, because they were made up: the swatches are what two-constant theory gives
/// for them. Measured mixtures are tried by the accuracy program.
/// </summary>
public class CharacterizationTests
{
    // The truth: optics unlike the prior, with scattering that changes over the spectrum.
    private static readonly Paint White = Made("white", _ => 0.0008, x => 0.45 - 0.05 * x);
    private static readonly Paint Ochre = Made("ochre", x => 0.12 - 0.10 * x, x => 0.10 + 0.06 * x);
    private static readonly Paint Slate = Made("slate", x => 0.05 + 0.03 * x, x => 0.03 - 0.01 * x);

    private static Paint Made(string id, Func<double, double> k, Func<double, double> s)
    {
        double[] Curve(Func<double, double> f) => [.. Enumerable.Range(0, SpectralGrid.Bands).Select(band => Math.Max(1e-4, f(2.0 * band / (SpectralGrid.Bands - 1) - 1)))];
        return new Paint { Id = id, Name = id, Optics = new AbsorptionScattering(Curve(k), Curve(s)), Grade = Grade.None, DropsPerMl = Paint.ConventionalDropsPerMl };
    }

    private static Swatch Of(string id, params (Paint Paint, double Parts)[] parts)
    {
        var truth = Prediction.AppearanceOf(new Recipe(parts.Select(part => new Part(part.Paint, part.Parts))), View.Default);
        return new Swatch
        {
            Id = id,
            Parts = [.. parts.Select(part => new SwatchPart(part.Paint.Id, part.Parts))],
            Color = MeasuredColor.Of(truth.Reflectance),
            Source = ReadingSource.Instrument,
            Dosing = Dosing.Weighed,
            Specular = SpecularMode.Excluded,
        };
    }

    private static Swatch[] Masstones => [Of("w", (White, 1)), Of("o", (Ochre, 1)), Of("s", (Slate, 1))];

    private static Swatch[] LetDowns =>
    [
        Of("o14", (Ochre, 1), (White, 4)), Of("o11", (Ochre, 1), (White, 1)), Of("s14", (Slate, 1), (White, 4)),
        Of("s19", (Slate, 1), (White, 9)), Of("os", (Ochre, 1), (Slate, 1)), Of("osw", (Ochre, 2), (Slate, 1), (White, 3)),
    ];

    private static Characterization Learn(IEnumerable<Paint> paints, IEnumerable<Swatch> swatches) =>
        Characterization.Of(paints, swatches, TestContext.Current.CancellationToken);

    // Entered without any knowledge.
    private static Paint[] Entered => [.. new[] { White, Ochre, Slate }.Select(paint => paint with { Optics = AbsorptionScattering.Clear })];

    private static double ErrorOf(Characterization learnt, params (Paint Paint, double Parts)[] parts)
    {
        Lab Seen(Func<Paint, Paint> paint) => Prediction.AppearanceOf(new Recipe(parts.Select(part => new Part(paint(part.Paint), part.Parts))), View.Default with { Finish = Finish.Gloss }).Lab;
        return DeltaE2000.Between(Seen(paint => paint), Seen(paint => learnt.Paint(paint.Id)));
    }

    private static ExpectedError StatedFor(Characterization learnt, params (Paint Paint, double Parts)[] parts) =>
        Prediction.Of(new Recipe(parts.Select(part => new Part(learnt.Paint(part.Paint.Id), part.Parts))), View.Default).ExpectedError;

    [Fact]
    public void A_mixture_never_seen_is_predicted_from_masstones_and_let_downs_within_what_is_stated()
    {
        var learnt = Learn(Entered, [.. Masstones, .. LetDowns]);
        foreach (var recipe in new[] { new[] { (Ochre, 1.0), (White, 2.0) }, [(Slate, 1.0), (White, 2.0)], [(Ochre, 1.0), (Slate, 2.0), (White, 2.0)] })
        {
            var error = ErrorOf(learnt, recipe);
            Assert.True(error <= StatedFor(learnt, recipe).Bound, $"{error} is more than stated");

            // A trained eye needs about 1 side by side to see anything.
            Assert.True(error < 1, $"{error}");
        }
    }

    [Fact]
    public void More_swatches_make_mixtures_surer()
    {
        var few = Learn(Entered, Masstones);
        var more = Learn(Entered, [.. Masstones, .. LetDowns]);
        Assert.True(StatedFor(more, (Ochre, 1), (White, 2)).Bound < StatedFor(few, (Ochre, 1), (White, 2)).Bound);
        Assert.True(StatedFor(more, (Ochre, 1), (Slate, 2), (White, 2)).Bound < StatedFor(few, (Ochre, 1), (Slate, 2), (White, 2)).Bound);
    }

    [Fact]
    public void Order_of_swatches_does_not_matter()
    {
        Swatch[] swatches = [.. Masstones, .. LetDowns];
        var one = Learn(Entered, swatches);
        var other = Learn(Entered, swatches.Reverse());
        Assert.All(Entered, paint => Assert.Equal(0, DeltaE2000.Between(
            Prediction.AppearanceOf(Recipe.Of(one.Paint(paint.Id)), View.Default).Lab, Prediction.AppearanceOf(Recipe.Of(other.Paint(paint.Id)), View.Default).Lab), 2));
    }

    [Fact]
    public void Optics_are_positive_and_finite_whatever_was_measured()
    {
        var learnt = Learn(Entered, [.. Masstones, .. LetDowns, Of("odd", (White, 1)) with { Id = "odd", Parts = [new SwatchPart("slate", 1)] }]);
        Assert.All(learnt.Paints, paint => Assert.All(paint.Optics.K.ToArray().Concat(paint.Optics.S.ToArray()), value => Assert.True(double.IsFinite(value) && value > 0)));
    }

    [Theory]
    [InlineData("o14", "slate")]
    [InlineData("s14", "ochre")]
    public void A_swatch_with_another_paints_label_is_the_first_suspect(string id, string wrong)
    {
        var swatches = Masstones.Concat(LetDowns).Select(swatch => swatch.Id == id ? swatch with { Parts = [new SwatchPart(wrong, 1), new SwatchPart("white", 4)] } : swatch);
        var learnt = Learn(Entered, swatches);
        Assert.NotEmpty(learnt.Suspects);
        Assert.Equal(id, learnt.Suspects[0].Swatch.Id);
    }

    [Fact]
    public void Swatches_that_agree_are_not_suspected() =>
        Assert.Empty(Learn(Entered, [.. Masstones, .. LetDowns]).Suspects);

    [Fact]
    public void A_paint_of_which_no_swatch_speaks_stays_as_entered()
    {
        var other = InventedPaints.Kelp;
        var learnt = Learn([.. Entered, other], [.. Masstones, .. LetDowns]);
        Assert.Same(other, learnt.Paint(other.Id));
    }

    [Fact]
    public void The_same_film_in_fewer_coats_is_of_a_stronger_paint()
    {
        // Three coats of 20 µm over a black and a white card.
        Swatch Over(string id, double ground, int coats)
        {
            var film = Enumerable.Range(0, SpectralGrid.Bands).Select(band => KubelkaMunk.FilmOver(Ochre.Optics.K[band], Ochre.Optics.S[band], 60, ground));
            double Seen(double inside) => new SurfaceReflection(0).ToMeasured(inside);
            return new Swatch
            {
                Id = id, Parts = [new SwatchPart(Ochre.Id, 1)], FilmId = "drawdown", CountedCoats = coats, Source = ReadingSource.Instrument, Specular = SpecularMode.Excluded,
                Color = MeasuredColor.Of(new Reflectance([.. film.Select(Seen)])), Backing = MeasuredColor.Of(Reflectance.Constant(Seen(ground))),
            };
        }

        double Scattering(int coats) => Learn(Entered, [.. Masstones, Over("black", 0.02, coats), Over("white", 0.95, coats)]).Paint(Ochre.Id).Optics.S.ToArray().Average();
        Assert.InRange(Scattering(1) / Scattering(3), 1.5, 3.5);
    }

    [Fact]
    public void Advice_is_sorted_and_never_promises_to_know_less()
    {
        var advice = SwatchAdvice.For(Learn(Entered, Masstones), "ochre", TestContext.Current.CancellationToken);
        Assert.NotEmpty(advice);
        Assert.Equal(advice.Select(one => one.BoundAfter).Order(), advice.Select(one => one.BoundAfter));
        Assert.True(advice[0].BoundAfter < advice[0].BoundNow);
        Assert.Contains("ochre", advice[0].Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Parts_that_are_no_parts_are_refused_by_name(double parts)
    {
        var swatch = Of("bad", (Ochre, 1)) with { Parts = [new SwatchPart("ochre", parts)] };
        var fault = Assert.Throws<ArgumentException>(() => Learn(Entered, [swatch]));
        Assert.Contains("bad", fault.Message, StringComparison.Ordinal);
        Assert.Contains("ochre", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_swatch_of_an_unknown_paint_is_refused() =>
        Assert.Contains("kelp", Assert.Throws<ArgumentException>(() => Learn(Entered, [Of("x", (White, 1)) with { Parts = [new SwatchPart("kelp", 1)] }])).Message, StringComparison.Ordinal);
}
