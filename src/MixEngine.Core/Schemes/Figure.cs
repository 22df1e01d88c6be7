namespace MixEngine.Core;

/// <summary>A figure, or a unit of like figures that are painted alike.</summary>
public sealed record Figure
{
    /// <summary>Its name, unique in its scheme.</summary>
    public required string Name { get; init; }

    /// <summary>How many of them there are, 1 or more.</summary>
    public int Count { get; init; } = 1;

    /// <summary>What there is to paint on one of them, cm².</summary>
    public double SurfaceCm2 { get; init; } = FigureSurface.OnFoot(FigureSurface.ConventionalHeightMm);

    /// <summary>Its areas in the order of the file.</summary>
    public required IReadOnlyList<Area> Areas { get; init; }

    /// <summary>Where its keys stand.</summary>
    public SourceLines Lines { get; init; } = SourceLines.None;

    /// <summary>
    /// The share of the figure's surface that an area takes, 0 to 1: as stated; what the stated ones leave is shared equally among the others.
    /// Glazes cover what they lie over; linings take 5 % (common practice, no source).
    /// </summary>
    public double ShareOf(Area area)
    {
        const double lining = 0.05;
        if (area.Share is { } stated)
        {
            return stated;
        }

        switch (area.Role)
        {
            case AreaRole.Lining:
                return lining;
            case AreaRole.Glaze:
                return Areas.FirstOrDefault(other => other.Name == area.Over) is { } beneath ? ShareOf(beneath) : 1;
            default:
                var painted = Areas.Where(other => other.Role is AreaRole.Layers or AreaRole.Single).ToArray();
                var left = Math.Max(0, 1 - painted.Sum(other => other.Share ?? 0));
                return left / painted.Count(other => other.Share is null);
        }
    }
}
