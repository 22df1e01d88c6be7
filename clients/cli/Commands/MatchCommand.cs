using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>How do I reach this colour?</summary>
internal static class MatchCommand
{
    private static readonly Argument<string[]> Target = Words.Of("colour", "\"#5a6b3c\", 5a6b3c or lab:40,-12,20 (in a shell a bare # begins a comment: quote it, or leave it out)");

    private static readonly Option<string?> Spectrum = new("--spectrum")
    {
        Description = "In place of a colour: the file of a measured surface (CSV: wavelength in nm, reflectance from 0 to 1)",
        HelpName = "FILE",
    };

    private static readonly Option<int?> Paints = OptionOf.Whole("--paints", "N", "Most paints in the recipe, 1 to 3 [default: 3]", least: 1, example: "3");

    private static readonly Option<int?> Drops = OptionOf.Whole("--drops", "N", "Most drops in the recipe, up to 12 on a palette, up to 80 for a bottle [default: 6]", least: 1, example: "6");

    private static readonly Option<string[]> Must = new("--must") { Description = "A paint that must be in every answer; given once or several times", HelpName = "PAINT" };

    private static readonly Option<string[]> Without = new("--without") { Description = "A paint that must not be added; given once or several times", HelpName = "PAINT" };

    private static readonly Option<string?> Base = new("--base")
    {
        Description = "What is already on the palette, in drops (\"4 tarred rope + 2 kelp\"): --paints and --drops then count what is added to it",
        HelpName = "RECIPE",
    };

    private static readonly Option<bool> Medium = new("--medium") { Description = "Medium may be added: with --must medium, a mix that can be made thinner with the colour kept" };

    private static readonly Option<string[]> Lamps = new("--lamp")
    {
        Description = "A light under which the mix is to hold: a name (D65, A, FL11, LED-B3 ...) or the file of a measured one; given several times, "
            + "the worst counts, or with weights after a colon (D65:3 A:1) their weighted mean [default: that of --light]",
        HelpName = "LAMP",
    };

    private static readonly Option<double?> Tolerance = OptionOf.Number("--tolerance", "DE",
        "What your eye does not see: within so much of the best the simpler recipe wins, and a colour so near is reached [default: 0.5]", least: 0, example: "0.5");

    private static readonly Option<int?> Answers = OptionOf.Whole("--answers", "N", "How many recipes to answer at most, each different in kind [default: 4]", least: 1, example: "4");

    public static Command Create()
    {
        var command = new Command("match", "The best recipe of the shelf for a colour, proven; Ctrl-C ends a long search with the best so far")
        {
            Target, Spectrum, Paints, Drops, Must, Without, Base, Medium, Lamps, Tolerance, Answers,
        };
        Target.Arity = ArgumentArity.ZeroOrMore;
        command.Validators.Add(result =>
        {
            bool isColour = result.GetResult(Target) is { Tokens.Count: > 0 };
            if (isColour == result.GetResult(Spectrum) is not null)
            {
                result.AddError(isColour
                    ? "--spectrum stands in place of a colour: leave one of them out."
                    : "Required argument 'colour' missing for command: 'match'.");
            }
        });
        command.SetAction((parsed, cancel) => MatchWatch.AnswerAsync(
            parsed,
            Request(parsed),
            new Form<MatchResponse>(MatchPage.Write, MatchTable.Of)
            {
                ExitCode = answer => answer.HasReached && !answer.Reached ? ExitCode.CannotBeReached : ExitCode.Answered,
            },
            cancel));
        return command;
    }

    private static MatchRequest Request(ParseResult parsed)
    {
        MatchLight[] lights = [.. (parsed.GetValue(Lamps) ?? []).Select(LightOf)];
        var request = new MatchRequest
        {
            Shelf = CommonOptions.ShelfOf(parsed),
            View = CommonOptions.ViewOf(parsed),
            Target = TargetOf(parsed),
            Paints = parsed.GetValue(Paints) ?? 0,
            Drops = parsed.GetValue(Drops) ?? 0,
            Must = { parsed.GetValue(Must) ?? [] },
            MustNot = { parsed.GetValue(Without) ?? [] },
            Medium = parsed.GetValue(Medium),
            Lights = { lights },
            LightRule = lights.Any(light => light.HasWeight) ? "weighted" : "",
            Answers = parsed.GetValue(Answers) ?? 0,
        };
        if (parsed.GetValue(Base) is { } onPalette)
        {
            request.Base = new RecipeInput { Text = onPalette };
        }
        if (parsed.GetValue(Tolerance) is { } tolerance)
        {
            request.Tolerance = tolerance;
        }
        return request;
    }

    private static ColorInput TargetOf(ParseResult parsed)
    {
        if (parsed.GetValue(Spectrum) is not { } file)
        {
            return new ColorInput { Text = parsed.Text(Target) };
        }
        (double[] wavelengths, double[] reflectances) = CurveFile.Read(file, "reflectance");
        return new ColorInput { Spectrum = new Spectrum { WavelengthNm = { wavelengths }, Reflectance = { reflectances } } };
    }

    // "A", "A:2", "my-lamp.csv" or "my-lamp.csv:2": what follows the last colon is a weight where it is a number.
    private static MatchLight LightOf(string text)
    {
        int colon = text.LastIndexOf(':');
        bool isWeighted = double.TryParse(text[(colon + 1)..], System.Globalization.NumberStyles.Float, Numerals.Invariant, out double weight) && colon > 0;
        Lamp lamp = LampFile.Read(isWeighted ? text[..colon] : text);
        var light = new MatchLight { Name = lamp.Name, WavelengthNm = { lamp.WavelengthNm }, RelativePower = { lamp.RelativePower } };
        if (isWeighted)
        {
            light.Weight = weight;
        }
        return light;
    }
}
