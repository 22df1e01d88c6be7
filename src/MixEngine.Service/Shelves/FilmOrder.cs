using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Service.Shelves;

/// <summary>No film looks darker over a lighter ground: readings that say so were swapped, or are of different films.</summary>
internal static class FilmOrder
{
    // What a photograph may be off in L.
    private const double Tolerance = 3;

    /// <summary>Pairs of one film of which the one over the lighter ground is the darker.</summary>
    public static IEnumerable<(Swatch OverLighter, Swatch OverDarker)> Violations(IEnumerable<Swatch> swatches) =>
        from film in swatches.Where(swatch => swatch is { FilmId: not null, Backing: not null }).GroupBy(swatch => swatch.FilmId)
        from overLighter in film
        from overDarker in film
        where Lightness(overLighter.Backing!) > Lightness(overDarker.Backing!) + Tolerance && Lightness(overLighter.Color) < Lightness(overDarker.Color) - Tolerance
        select (overLighter, overDarker);

    /// <summary>What is said of such a pair.</summary>
    public static string Words(Swatch overLighter, Swatch overDarker) => FormattableString.Invariant(
        $"Not used: '{overLighter.Id}' reads darker over the lighter ground (L {Lightness(overLighter.Color):0.0}) than '{overDarker.Id}' over the darker one (L {Lightness(overDarker.Color):0.0}), which no film does. Probably they were swapped: correct one.");

    private static double Lightness(MeasuredColor color) => color.LabUnder(ViewingCondition.Default).L;
}
