using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Schemes;

/// <summary>Reads a scheme's text, and gives its names the paints of shelves.</summary>
internal static class SchemePaints
{
    /// <summary>The scheme.</summary>
    /// <exception cref="Refusal">Every fault of the file, with line and key.</exception>
    public static Scheme Read(string text)
    {
        var result = SchemeReader.Read(text);
        if (result.Succeeded)
        {
            return result.Table;
        }

        var violations = new Violations();
        foreach (var fault in result.Faults)
        {
            violations.Add("text", fault.ToString());
        }

        violations.ThrowIfAny();
        throw new InvalidOperationException("A scheme without faults and without content.");
    }

    /// <summary>The scheme with the paints that its names stand for.</summary>
    /// <param name="scheme">The scheme.</param>
    /// <param name="shelves">The shelves to paint from, in order.</param>
    /// <param name="boat">The shelf of what could be bought; null: none.</param>
    /// <exception cref="Refusal">A name is unknown or ambiguous; all of them, with line and key.</exception>
    public static SchemeInput Input(Scheme scheme, IReadOnlyList<Shelf> shelves, Shelf? boat)
    {
        var shelf = Joined(shelves);
        var violations = new Violations();
        var recipes = new Dictionary<string, Recipe>();
        foreach (var (figure, area) in scheme.Areas)
        {
            foreach (var text in area.Aim is AreaAim.Paints paints ? paints.Recipes : [])
            {
                var own = new Violations();
                if (RecipeMapping.ReadPigmented(new V1.RecipeInput { Text = text }, "paints", shelf, own) is { } recipe)
                {
                    recipes[text] = recipe;
                }

                Add(violations, own, area.Lines.Of("paints"), $"figure \"{figure.Name}\" / area \"{area.Name}\" / paints");
            }
        }

        var table = new Violations();
        var onTable = scheme.OnTable.Select(name => PaintLookup.Find(shelf, name, "on-table", table)).OfType<Paint>().Select(paint => paint.Id).ToHashSet();
        Add(violations, table, scheme.Lines.Of("on-table"), "on-table");
        if (shelf.Paints.All(paint => paint.Kind != PaintKind.Paint))
        {
            violations.Add("shelf", $"There is no paint on '{shelf.Name}' to plan with.");
        }

        violations.ThrowIfAny();
        return new SchemeInput(scheme, [.. shelf.Paints], recipes) { OnTable = onTable, Buyable = boat is null ? [] : [.. boat.Paints] };
    }

    // As the reader of the file tells its faults: line and key first.
    private static void Add(Violations violations, Violations found, int line, string key)
    {
        foreach (var violation in found.All)
        {
            violations.Add("text", FormattableString.Invariant($"line {line}, {key}: {violation.Description}"));
        }
    }

    /// <summary>Several shelves as one: a bottle of a later one whose id is taken is told apart by its shelf's name.</summary>
    private static Shelf Joined(IReadOnlyList<Shelf> shelves)
    {
        if (shelves.Count == 1)
        {
            return shelves[0];
        }

        var taken = new HashSet<string>();
        return new Shelf(
            string.Join(" + ", shelves.Select(shelf => shelf.Name)), 0,
            [.. shelves.SelectMany(shelf => shelf.Bottles.Select(bottle => taken.Add(bottle.Paint.Id) ? bottle : ToldApart(bottle, shelf.Name)))]);
    }

    private static Bottle ToldApart(Bottle bottle, string shelf) => bottle with { Paint = bottle.Paint with { Id = $"{shelf}/{bottle.Paint.Id}", Name = $"{bottle.Paint.Name} ({shelf})" } };
}
