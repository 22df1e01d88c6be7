using MixEngine.Core;

namespace MixEngine.Interchange;

/// <summary>What one part of a scheme says of another: names that stand once, areas that exist, references that end.</summary>
internal static class SchemeReferences
{
    public static void Check(Scheme scheme, ImportLog log)
    {
        foreach (Figure second in scheme.Figures.GroupBy(f => f.Name).SelectMany(g => g.Skip(1)))
        {
            Fault(log, second.Lines, "name", $"figure \"{second.Name}\"", second.Name, "a name that no other figure has", "Give each figure its own name, or raise the count of one.");
        }
        foreach (Figure figure in scheme.Figures)
        {
            CheckAreas(scheme, figure, log);
        }
        foreach ((Figure figure, Area area) in scheme.Areas.Where(a => a.Area.Aim is AreaAim.Like))
        {
            CheckEnds(scheme, figure, area, log);
        }
    }

    private static void CheckAreas(Scheme scheme, Figure figure, ImportLog log)
    {
        string path = $"figure \"{figure.Name}\"";
        foreach (Area second in figure.Areas.GroupBy(a => a.Name).SelectMany(g => g.Skip(1)))
        {
            Fault(log, second.Lines, "name", path, second.Name, "a name that no other area of this figure has", "Give each area its own name.");
        }
        double shares = figure.Areas.Where(a => a.Role is AreaRole.Layers or AreaRole.Single).Sum(a => a.Share ?? 0);
        if (shares > 1.0001)
        {
            Fault(log, figure.Lines, "share-percent", path, $"{NumberText.Write(Math.Round(100 * shares, 1))} in all", "at most 100 percent over all areas", "Lower some of them.");
        }
        foreach (Area glaze in figure.Areas.Where(a => a.Over is not null))
        {
            if (figure.Areas.FirstOrDefault(a => a.Name == glaze.Over) is not { Role: AreaRole.Layers or AreaRole.Single })
            {
                Fault(log, glaze.Lines, "over", $"{path} / area \"{glaze.Name}\"", glaze.Over!, $"an area of this figure that is painted in layers or one colour: {Names(figure.Areas.Where(a => a.Role is AreaRole.Layers or AreaRole.Single))}", "Name one of these.");
            }
        }
        foreach (Area area in figure.Areas)
        {
            if (area.Aim is AreaAim.Like like && Find(scheme, figure, like) is { } found && IsGlaze(found.Area) != IsGlaze(area))
            {
                Fault(log, area.Lines, "like", $"{path} / area \"{area.Name}\"", like.Area, "an area that hides what is beneath, like this one, or a glaze, for a glaze", "Name another area, or give a target.");
            }
        }
    }

    private static void CheckEnds(Scheme scheme, Figure figure, Area area, ImportLog log)
    {
        string path = $"figure \"{figure.Name}\" / area \"{area.Name}\"";
        var (onFigure, at) = (figure, area);
        var seen = new HashSet<Area>(ReferenceEqualityComparer.Instance);
        while (at.Aim is AreaAim.Like like)
        {
            if (!seen.Add(at))
            {
                Fault(log, area.Lines, "like", path, ((AreaAim.Like)area.Aim).Area, "a reference that ends at a target or at paints", "These areas refer to each other in a circle: give one of them a target.");
                return;
            }
            if (Find(scheme, onFigure, like) is not { } next)
            {
                if (ReferenceEquals(at, area))
                {
                    string known = like.Figure is null
                        ? Names(figure.Areas.Where(a => a != area))
                        : scheme.Figures.FirstOrDefault(f => f.Name == like.Figure) is { } other ? Names(other.Areas) : "(there is no such figure)";
                    Fault(log, area.Lines, "like", path, like.Figure is null ? like.Area : $"{like.Figure} / {like.Area}", $"an area that exists: {known}", "Write \"area\" for the same figure, \"figure / area\" for another.");
                }
                return;
            }
            (onFigure, at) = next;
        }
    }

    private static (Figure Figure, Area Area)? Find(Scheme scheme, Figure figure, AreaAim.Like like) =>
        (like.Figure is null ? figure : scheme.Figures.FirstOrDefault(f => f.Name == like.Figure)) is { } on && on.Areas.FirstOrDefault(a => a.Name == like.Area) is { } area
            ? (on, area)
            : null;

    private static bool IsGlaze(Area area) => area.Role == AreaRole.Glaze;

    private static string Names(IEnumerable<Area> areas) => string.Join(", ", areas.Select(a => $"\"{a.Name}\""));

    private static void Fault(ImportLog log, SourceLines lines, string key, string path, string value, string expected, string remedy) =>
        log.Fault(lines.Of(key), $"{path} / {key}", value, expected, remedy);
}
