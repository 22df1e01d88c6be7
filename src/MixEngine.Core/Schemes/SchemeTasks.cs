using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>From a scheme to what each of its areas asks of the palette: references followed, chroma held down to the mood.</summary>
public sealed class SchemeTasks
{
    // A ceiling is not missed by what no eye sees.
    private const double Unremarked = 0.05;

    private readonly SchemeInput _input;
    private readonly Dictionary<Area, AreaTask> _tasks = new(ReferenceEqualityComparer.Instance);

    private SchemeTasks(SchemeInput input) => _input = input;

    /// <summary>The tasks in the order of the file.</summary>
    /// <exception cref="ArgumentException">A reference leads nowhere or in a circle, or a paint has no recipe.</exception>
    public static IReadOnlyList<AreaTask> Of(SchemeInput input)
    {
        var tasks = new SchemeTasks(input);
        return [.. input.Scheme.Areas.Select(area => tasks.TaskOf(area.Figure, area.Area, 0))];
    }

    private AreaTask TaskOf(Figure figure, Area area, int depth)
    {
        if (_tasks.TryGetValue(area, out var known))
        {
            return known;
        }

        const int deepest = 1000;
        if (depth > deepest)
        {
            throw new ArgumentException($"'{figure.Name} / {area.Name}' refers to itself through other areas.");
        }

        var task = area.Aim switch
        {
            AreaAim.Like like => TaskLike(figure, area, like, depth),
            AreaAim.Paints paints => Task(figure, area, null, [.. paints.Recipes.Select(text => (_input.Recipes[text], (Lab?)null))], [], depth),
            AreaAim.Colors colors => TaskOfColors(figure, area, [.. colors.Targets.Select(LabOf)], depth),
            _ => throw new ArgumentException($"'{figure.Name} / {area.Name}' has no aim."),
        };
        _tasks.Add(area, task);
        return task;
    }

    private AreaTask TaskLike(Figure figure, Area area, AreaAim.Like like, int depth)
    {
        var on = like.Figure is null ? figure : _input.Scheme.Figures.FirstOrDefault(other => other.Name == like.Figure);
        var other = on?.Areas.FirstOrDefault(candidate => candidate.Name == like.Area)
            ?? throw new ArgumentException($"'{figure.Name} / {area.Name}' refers to '{like.Figure} / {like.Area}', which does not exist.");
        var model = TaskOf(on!, other, depth + 1);

        // The very same: its mixes serve both.
        if (like.But is not { } but)
        {
            var demands = area.Role == AreaRole.Layers || model.Demands.Count == 1 ? model.Demands : [Middle(model)];
            return new AreaTask(figure, area, demands, model, []);
        }

        var labs = area.Role == AreaRole.Layers ? model.Demands.Select(demand => demand.Aim) : [Middle(model).Aim];
        return TaskOfColors(figure, area, [.. labs.Select(but.Of)], depth);
    }

    private static Demand Middle(AreaTask task) => task.Demands[task.Demands.Count / 2];

    private AreaTask TaskOfColors(Figure figure, Area area, Lab[] aims, int depth)
    {
        // One colour is the middle of its layers: shadows keep their hue and lose chroma, so do highlights (common practice: shades are never brighter).
        if (area.Role == AreaRole.Layers && aims.Length == 1)
        {
            aims = [Moved(aims[0], -area.Spread / 2), aims[0], Moved(aims[0], area.Spread / 2)];
        }

        // The mood holds chroma down at the same hue and lightness.
        var ceiling = CeilingOf(area);
        var remarks = new List<string>();
        for (var i = 0; i < aims.Length; i++)
        {
            if (aims[i].Chroma > ceiling + Unremarked)
            {
                remarks.Add(Text($"Chroma {aims[i].Chroma:0} of a target was held down to {ceiling:0} for the mood."));
                aims[i] = new Lab(aims[i].L, aims[i].A * ceiling / aims[i].Chroma, aims[i].B * ceiling / aims[i].Chroma);
            }
        }

        return Task(figure, area, ceiling, [.. aims.Select(aim => ((Recipe?)null, (Lab?)aim))], remarks, depth);
    }

    private AreaTask Task(Figure figure, Area area, double? ceiling, (Recipe? Given, Lab? Aim)[] nodes, List<string> remarks, int depth)
    {
        var demands = nodes.Select((node, i) => new Demand(Text($"{figure.Name} / {area.Name} / {i + 1}"), node.Aim ?? ColorOf(node.Given!))
        {
            Given = node.Given,
            Glaze = area.Role == AreaRole.Glaze ? GoalOf(figure, area, depth) : null,
            ChromaAtMost = ceiling ?? double.PositiveInfinity,
            Drops = area.Drops ?? _input.Scheme.Drops,
        }).ToArray();

        // Mixes that their author gave are used as they are; the mood only says so.
        foreach (var demand in demands.Where(demand => demand.Given is not null && demand.Aim.Chroma > CeilingOf(area) + Unremarked))
        {
            remarks.Add(Text($"{demand.Given} has chroma {demand.Aim.Chroma:0}, above the mood's {CeilingOf(area):0}; it was asked for by name and kept."));
        }

        return new AreaTask(figure, area, demands, null, remarks);
    }

    private GlazeGoal GoalOf(Figure figure, Area area, int depth)
    {
        var beneath = figure.Areas.FirstOrDefault(other => other.Name == area.Over)
            ?? throw new ArgumentException($"'{figure.Name} / {area.Name}' lies over '{area.Over}', which does not exist.");
        return new GlazeGoal(Middle(TaskOf(figure, beneath, depth + 1)).Aim, area.Coats, area.Medium);
    }

    private double CeilingOf(Area area) => area.ChromaAtMost ?? _input.Scheme.ChromaAtMost ?? double.PositiveInfinity;

    // A paint alone of medium or water has no colour to be like.
    private Lab ColorOf(Recipe recipe) => Prediction.LabOf(recipe, _input.Scheme.View);

    private Lab LabOf(AimColor color)
    {
        var condition = _input.Scheme.Condition;
        return color.Condition == condition
            ? Lab.FromXyz(color.Xyz, TristimulusWeights.For(condition).White)
            : MatchTarget.OfColor(color.Xyz, color.Condition).Under(condition);
    }

    private static Lab Moved(Lab lab, double lightness)
    {
        // Chroma fades with the distance from the middle as a surface's must near black and white.
        var to = Math.Clamp(lab.L + lightness, 3, 97);
        var room = lightness < 0 ? to / lab.L : (100 - to) / (100 - lab.L);
        var factor = lab.L is > 0 and < 100 ? Math.Sqrt(Math.Clamp(room, 0, 1)) : 1;
        return new Lab(to, lab.A * factor, lab.B * factor);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
