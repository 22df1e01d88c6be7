using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>All that one search does not change: paints in blocks, what the target asks under each light, and which paints must be in.</summary>
internal sealed class SearchScope
{
    public SearchScope(SearchShelf shelf, MatchObjective objective, MatchOptions options, int[] must)
    {
        Shelf = shelf;
        Objective = objective;
        Must = must;
        OnBase = shelf.Start is not null;
        var surfaces = new PaintSurfaces(shelf, options.View);
        Blocks = new PaintBlocks(shelf, surfaces);
        Filters = [.. objective.Lights.Select(light => new TargetFilter(light, Blocks, surfaces))];
    }

    public SearchShelf Shelf { get; }

    public MatchObjective Objective { get; }

    /// <summary>Places of the paints that must be in, each once.</summary>
    public int[] Must { get; }

    /// <summary>Whether something is on the palette already.</summary>
    public bool OnBase { get; }

    public PaintBlocks Blocks { get; }

    /// <summary>One for each light of the objective.</summary>
    public TargetFilter[] Filters { get; }

    /// <summary>The limits of all filters for a difference.</summary>
    public float[][] LimitsFor(double difference) =>
        [.. Filters.Zip(Objective.Lights, (filter, light) =>
            filter.Limits(new Neighbourhood(light.Aim, Objective.RadiusUnder(light, difference)), Machine.Precision))];

    /// <summary>The exact difference of a candidate; infinite where it has no pigment and so no colour of its own.</summary>
    public double DifferenceOf(in Candidate candidate)
    {
        if (!HasPigment(candidate))
        {
            return double.PositiveInfinity;
        }

        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Shelf.Reflect(candidate, seen);
        return Objective.DifferenceOf(seen);
    }

    private bool HasPigment(in Candidate candidate) =>
        Shelf.StartPigmented > 0
        || (candidate.DropsA > 0 && Shelf.Pigmented(candidate.A) > 0)
        || (candidate.DropsB > 0 && Shelf.Pigmented(candidate.B) > 0)
        || (candidate.DropsC > 0 && Shelf.Pigmented(candidate.C) > 0);
}
