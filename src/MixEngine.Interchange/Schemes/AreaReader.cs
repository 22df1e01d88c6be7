using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Interchange;

/// <summary>Reads one [[figure.area]].</summary>
internal static class AreaReader
{
    private const int ConventionalSteps = 5;

    public static Area Read(TomlTable table, string path, ViewingCondition condition, ImportLog log)
    {
        var keys = new SchemeTable(table, path, log);
        AreaRole role = keys.Word("role", SchemeWords.Roles) ?? AreaRole.Layers;
        bool layers = role == AreaRole.Layers;
        int steps = keys.Whole("steps", 2, 64) ?? (layers ? ConventionalSteps : 1);
        Forbid(keys, "steps", !layers, "role = \"layers\"");
        double? spread = keys.Number("spread", 2, 100, "(CIELAB L*)");
        Forbid(keys, "spread", !layers, "role = \"layers\" and one target");
        double? medium = keys.Number("medium-parts", 0.1, 100, "parts to one part of paint");
        Forbid(keys, "medium-parts", role != AreaRole.Glaze, "role = \"glaze\"");
        string? over = keys.Text("over");
        Forbid(keys, "over", role != AreaRole.Glaze, "role = \"glaze\"");
        if (role == AreaRole.Glaze && over is null && !keys.Has("over"))
        {
            keys.Fault("over", "", "the area that the glaze lies over", "Add over = \"...\".");
        }
        AreaAim aim = AimOf(keys, role, condition);
        if (role == AreaRole.Glaze && aim is AreaAim.Paints && medium is null && !keys.Has("medium-parts"))
        {
            keys.Fault("medium-parts", "", "parts of medium to one part of paint", "Add medium-parts = 6, or give a target to reach instead of paints.");
        }
        if (spread is not null && aim is not AreaAim.Colors { Targets.Count: 1 })
        {
            keys.Fault("spread", NumberText.Write(spread.Value), "one target", "Remove spread: the ends are given already.");
        }
        var area = new Area
        {
            Name = keys.Text("name") ?? SchemeReader.Required(keys, "name", "a name for the area"),
            Role = role,
            Aim = aim,
            Steps = steps,
            Drops = keys.Whole("drops", 1, 80),
            Spread = spread ?? Area.ConventionalSpread,
            Coats = keys.Whole("coats", 1, 100) ?? (role is AreaRole.Layers or AreaRole.Single ? Area.ConventionalBaseCoats : 1),
            Medium = medium,
            Over = over,
            Share = keys.Number("share-percent", 0.1, 100, "percent") / 100,
            Where = keys.Texts("where"),
            ChromaAtMost = keys.Number("chroma-at-most", 0, 150, "(CIELAB C*)"),
            Lines = keys.Lines,
        };
        if (area.Where.Count > 1 && area.Where.Count != area.Steps)
        {
            keys.Fault("where", $"{area.Where.Count} texts", $"one text, or one for each of the {area.Steps} steps", "Give as many as there are steps.");
        }
        keys.RefuseOthers();
        return area;
    }

    private static void Forbid(SchemeTable keys, string key, bool forbidden, string where)
    {
        if (forbidden && keys.Has(key))
        {
            keys.Fault(key, "a value", $"this key only with {where}", "Remove it, or change the role.");
        }
    }

    private static AreaAim AimOf(SchemeTable keys, AreaRole role, ViewingCondition condition)
    {
        IReadOnlyList<string> targets = keys.Texts("target", "a colour such as \"#5a6b3c\" or \"lab:40,-12,20\", or a list of them from dark to light");
        IReadOnlyList<string> paints = keys.Texts("paints", "a paint or a mix such as \"2 tarred rope + 1 kelp\", or a list of them from dark to light");
        string? like = keys.Text("like", "an area, such as \"cloak\" or \"net casters / cloak\"");
        ColorChange? but = ButOf(keys, like);
        string[] given = [.. new[] { "target", "paints", "like" }.Where(keys.Has)];
        if (given.Length != 1)
        {
            keys.Fault(given.LastOrDefault() ?? "target", string.Join(", ", given), "exactly one of target, paints and like", given.Length == 0 ? "Add one of them." : "Keep one of them.");
        }
        if (like is not null)
        {
            string[] parts = like.Split('/', StringSplitOptions.TrimEntries);
            return parts.Length == 1 ? new AreaAim.Like(null, like, but) : new AreaAim.Like(parts[0], string.Join("/", parts[1..]), but);
        }
        if (paints.Count > 0)
        {
            CheckCount(keys, "paints", paints.Count, role, leastForLayers: 2);
            return new AreaAim.Paints(paints);
        }
        CheckCount(keys, "target", targets.Count, role, leastForLayers: 1);
        return new AreaAim.Colors([.. targets.Select(text => ColorOf(keys, text, condition)).OfType<AimColor>()]);
    }

    private static void CheckCount(SchemeTable keys, string key, int count, AreaRole role, int leastForLayers)
    {
        const int most = 8;
        if (!keys.Has(key) || count == 0)
        {
            return;
        }
        if (role != AreaRole.Layers && count > 1)
        {
            keys.Fault(key, $"{count} of them", "one, for this role", "Keep one, or use role = \"layers\".");
        }
        else if (role == AreaRole.Layers && (count < leastForLayers || count > most))
        {
            keys.Fault(key, $"{count} of them", $"{leastForLayers} to {most} for layers, from dark to light", "Name the paints that the layers pass through.");
        }
    }

    private static ColorChange? ButOf(SchemeTable keys, string? like)
    {
        if (keys.Text("but") is not { } words)
        {
            return null;
        }
        string known = $"words such as \"a little duller and darker\", of {string.Join(", ", ColorChange.Known)}";
        ColorChange? change = ColorChange.Parse(words);
        if (change is null)
        {
            keys.Fault("but", words, known, "Join them by \"and\"; \"a little\" and \"much\" may stand before each.");
        }
        if (like is null)
        {
            keys.Fault("but", words, "this key only with like", "Add like = \"...\", or remove it.");
        }
        return change;
    }

    private static AimColor? ColorOf(SchemeTable keys, string text, ViewingCondition condition)
    {
        if (HexColor.TryParse(text, out HexColor hex))
        {
            return AimColor.Of(hex);
        }
        const string prefix = "lab:";
        if (text.StartsWith(prefix, StringComparison.OrdinalIgnoreCase))
        {
            double[] numbers = [.. text[prefix.Length..].Split(',').Select(n => double.TryParse(n, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) && double.IsFinite(v) ? v : double.NaN)];
            if (numbers.Length == 3 && numbers[0] is >= 0 and <= 100 && Math.Abs(numbers[1]) <= 200 && Math.Abs(numbers[2]) <= 200)
            {
                return AimColor.Of(text, new Lab(numbers[0], numbers[1], numbers[2]), condition);
            }
        }
        keys.Fault("target", text, "a colour such as \"#5a6b3c\" or \"lab:40,-12,20\" (L 0 to 100, a and b -200 to 200)", "Write hex colours with six digits.");
        return null;
    }
}
