using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>What does a glaze do?</summary>
internal static class GlazeCommand
{
    public static readonly Option<double?> Film = OptionOf.Number("--film", "UM", "Dry thickness of one coat of undiluted paint, in micrometres [default: 20]", least: 0, example: "20");

    private static readonly Argument<string[]> Recipe = Words.Of("recipe", "The paint or the mix that is let down");

    private static readonly Option<string[]> Over = new("--over")
    {
        Description = "What lies beneath: a colour (\"#c9c9c9\", lab:60,0,0), a primer (black, grey, white), or a recipe (\"1 white\" is the paint)",
        HelpName = "LAYER",
        Required = true,
    };

    private static readonly Option<double?> Medium = OptionOf.Number("--medium", "PARTS", "Parts of medium to one part of paint [default: 0]", least: 0, example: "6");

    private static readonly Option<double?> Water = OptionOf.Number("--water", "PARTS", "Parts of water to one part of paint [default: 0]", least: 0, example: "0.5");

    private static readonly Option<int?> Coats = OptionOf.Whole("--coats", "N", "How many coats [default: 1]", least: 1, example: "3");

    public static Command Create()
    {
        var command = new Command("glaze", "A let-down paint over something, coat by coat") { Recipe, Over, Medium, Water, Coats, Film, GlazeTo.Target };
        Recipe.Arity = ArgumentArity.ZeroOrMore;
        command.Validators.Add(result =>
        {
            if (result.GetResult(Recipe) is not { Tokens.Count: > 0 } && result.GetResult(GlazeTo.Target) is null)
            {
                result.AddError("Required argument 'recipe' missing for command: 'glaze'.");
            }
        });
        command.SetAction((parsed, cancel) => parsed.GetValue(GlazeTo.Target) is not null
            ? GlazeTo.AnswerAsync(parsed, Request(parsed), parsed.GetValue(Medium) is not null, parsed.GetValue(Over)!.Select(SurfaceOf), cancel)
            : parsed.AnswerAsync(
                (service, options) => service.Mixing.GlazeAsync(Request(parsed), options),
                new Form<GlazeResponse>(GlazePage.Write, GlazeTable.Of),
                cancel));
        return command;
    }

    /// <summary>"black", "grey" and "white" are primers; what looks like a colour is one; anything else is a recipe.</summary>
    public static Surface SurfaceOf(string over)
    {
        string text = over.Trim();
        return text.ToLowerInvariant() switch
        {
            "black" or "grey" or "white" => new Surface { Primer = text.ToLowerInvariant() },
            "gray" => new Surface { Primer = "grey" },
            ['#', ..] or ['l', 'a', 'b', ':', ..] => new Surface { Color = new ColorInput { Text = text } },
            { Length: 3 or 6 } word when word.All(char.IsAsciiHexDigit) => new Surface { Color = new ColorInput { Text = text } },
            _ => new Surface { Recipe = new RecipeInput { Text = text } },
        };
    }

    private static GlazeRequest Request(ParseResult parsed)
    {
        var request = new GlazeRequest
        {
            Shelf = CommonOptions.ShelfOf(parsed),
            View = CommonOptions.ViewOf(parsed),
            Recipe = new RecipeInput { Text = parsed.Text(Recipe) },
            MediumParts = parsed.GetValue(Medium) ?? 0,
            WaterParts = parsed.GetValue(Water) ?? 0,
            Coats = parsed.GetValue(Coats) ?? 0,
        };
        if (parsed.GetValue(GlazeTo.Target) is null)
        {
            request.Over = parsed.GetValue(Over) is [var one] ? SurfaceOf(one) : throw new Refusal("--over: a glaze goes over one layer. Give it once; only with --to it may be given for every step of a ramp.");
        }
        if (parsed.GetValue(Film) is { } film)
        {
            request.FilmThicknessUm = film;
        }
        return request;
    }
}
