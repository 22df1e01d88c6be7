using System.CommandLine;
using System.Globalization;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>How does it look varnished, under another lamp, to other eyes?</summary>
internal static class LookCommands
{
    private static readonly Option<string> VarnishWord = new("--varnish") { Description = "matt, satin or gloss [default: each of them]", HelpName = "WORD" };

    private static readonly Option<string[]> LampWord = new("--lamp")
    {
        Description = "A light (A, D50, FL11, LED-B3 ...) or the file of a measured one (CSV: wavelength in nm, power); given once or several times [default: daylight, a bulb, a white LED, a tube]",
        HelpName = "LAMP",
    };

    private static readonly Option<string> Target = new("--target") { Description = "What the recipes are to match: how well they do under each lamp", HelpName = "COLOUR" };

    private static readonly Option<string[]> Eye = new("--eye")
    {
        Description = "protan, deutan or tritan, with a severity from 0 to 1 after a colon (deutan:0.6); given once or several times [default: each of them]",
        HelpName = "EYE",
    };

    public static Command Finish()
    {
        Argument<string[]> recipes = Recipes();
        var command = new Command("finish", "Recipes, or a ramp, in other finishes: what a varnish does") { recipes, VarnishWord };
        command.SetAction((parsed, cancel) =>
        {
            var request = new FinishRequest { Shelf = CommonOptions.ShelfOf(parsed), View = CommonOptions.ViewOf(parsed), Varnish = parsed.GetValue(VarnishWord) ?? "", Recipes = { InputsOf(parsed, recipes) } };
            return parsed.AnswerAsync(
                (service, options) => service.Layering.FinishAsync(request, options),
                new Form<FinishResponse>((page, answer) => LookPage.Write(page, answer.Looks), answer => LookTable.Of(answer.Looks)), cancel);
        });
        return command;
    }

    public static Command Light()
    {
        Argument<string[]> recipes = Recipes();
        var command = new Command("light", "Recipes, or a ramp, under other lamps, and how a match holds there") { recipes, LampWord, Target };
        command.SetAction((parsed, cancel) =>
        {
            var request = new LightRequest
            {
                Shelf = CommonOptions.ShelfOf(parsed), View = CommonOptions.ViewOf(parsed), Recipes = { InputsOf(parsed, recipes) }, Lamps = { (parsed.GetValue(LampWord) ?? []).Select(LampFile.Read) },
            };
            if (parsed.GetValue(Target) is { } target)
            {
                request.Target = new ColorInput { Text = target };
            }
            return parsed.AnswerAsync(
                (service, options) => service.Layering.LightAsync(request, options), new Form<LightResponse>(LookPage.Write, LookTable.Of), cancel);
        });
        return command;
    }

    public static Command Eyes()
    {
        Argument<string[]> recipes = Recipes();
        var command = new Command("eyes", "Recipes, or a ramp, to eyes with a colour-vision deficiency: which steps stay apart") { recipes, Eye };
        command.SetAction((parsed, cancel) =>
        {
            var request = new EyesRequest { Shelf = CommonOptions.ShelfOf(parsed), View = CommonOptions.ViewOf(parsed), Recipes = { InputsOf(parsed, recipes) }, Eyes = { (parsed.GetValue(Eye) ?? []).Select(EyeOf) } };
            return parsed.AnswerAsync(
                (service, options) => service.Layering.EyesAsync(request, options),
                new Form<EyesResponse>((page, answer) => LookPage.Write(page, answer.Looks), answer => LookTable.Of(answer.Looks)), cancel);
        });
        return command;
    }

    private static Argument<string[]> Recipes() => Words.WithoutOptions(new Argument<string[]>("recipes")
    {
        Description = "One recipe, or the steps of a ramp in their order, each in quotes",
        Arity = new ArgumentArity(1, 1000),
    });

    private static IEnumerable<RecipeInput> InputsOf(ParseResult parsed, Argument<string[]> recipes) => parsed.GetValue(recipes)!.Select(text => new RecipeInput { Text = text });

    // "deutan:0.6"
    private static Eye EyeOf(string text)
    {
        string[] halves = text.Split(':', 2, StringSplitOptions.TrimEntries);
        var eye = new Eye { Kind = halves[0] };
        if (halves.Length == 2)
        {
            eye.Severity = double.TryParse(halves[1], NumberStyles.Float, Numerals.Invariant, out double severity) && double.IsFinite(severity)
                ? severity
                : throw new Refusal($"--eye: \"{text}\" cannot be used. Give the word alone, or with a severity from 0 to 1 after a colon, such as deutan:0.6.");
        }
        return eye;
    }
}
