using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class PaintPage
{
    /// <summary>Such steps are enough to see where a paint absorbs.</summary>
    private const int EveryNm = 50;

    public static void Write(Page page, GetPaintResponse answer)
    {
        ShelfPage.Write(page, answer);
        if (answer.Reflectance.Count > 0)
        {
            Curves(page, answer);
        }
        page.Line();
        if (answer.Evidence.Count == 0)
        {
            page.Line($"No swatch of it yet. What to measure first: mixengine paint advise \"{answer.Paint.Name}\"");
            return;
        }
        page.Line($"Known by {SwatchPage.Count(answer.Evidence.Count)}{Fit(answer.Evidence)}");
        foreach (SwatchFit fit in answer.Evidence)
        {
            SwatchPage.Write(page, fit, indent: 2);
        }
    }

    public static void Write(Page page, AdviseSwatchResponse answer)
    {
        page.Line("Of what could be measured next, this would tell most");
        foreach (SwatchAdvice advice in answer.Advice)
        {
            page.Prose($"{advice.Words} Its mixtures are then within {Numerals.Difference(advice.BoundAfterDeltaE00)} nineteen times in twenty, on average; now {Numerals.Difference(advice.BoundNowDeltaE00)}.", 4, "  - ");
        }
        page.Line();
        page.Line("  Differences are CIEDE2000. Then: mixengine swatch add RECIPE COLOUR");
    }

    private static void Curves(Page page, GetPaintResponse answer)
    {
        page.Line();
        int most = IndexOf(answer.AbsorptionPerUm, values => values.Max()), least = IndexOf(answer.AbsorptionPerUm, values => values.Min());
        page.Line($"Its curves: it absorbs most at {Nm(answer, most)} nm and least at {Nm(answer, least)} nm");
        page.Line("  nm    absorbs  scatters  reflects");
        foreach (int band in Enumerable.Range(0, answer.WavelengthNm.Count).Where(band => answer.WavelengthNm[band] % EveryNm == 0))
        {
            page.Line($"  {Nm(answer, band)}  {PerUm(answer.AbsorptionPerUm[band]),8}  {PerUm(answer.ScatteringPerUm[band]),8}  {Numerals.One(100 * answer.Reflectance[band]),6} %  {Phrases.Bar(answer.Reflectance[band], 1)}");
        }
        page.Line("  Absorption and scattering (Kubelka-Munk) are 1 per micrometre of dry film.");
    }

    private static string Fit(IEnumerable<SwatchFit> evidence)
    {
        SwatchFit[] fitted = [.. evidence.Where(fit => fit.HasDeltaE00).OrderBy(fit => fit.DeltaE00)];
        return fitted.Length == 0
            ? ", none of which is used"
            : $": half of them within {Numerals.Difference(fitted[(fitted.Length - 1) / 2].DeltaE00)}, the worst {Numerals.Difference(fitted[^1].DeltaE00)} away ({fitted[^1].Swatch.Id})";
    }

    private static int IndexOf(IReadOnlyList<double> values, Func<IEnumerable<double>, double> which) => values.ToList().IndexOf(which(values));

    private static string Nm(GetPaintResponse answer, int band) => Numerals.UpTo(0, answer.WavelengthNm[band]);

    private static string PerUm(double value) => value.ToString("0.00000", Numerals.Invariant);
}
