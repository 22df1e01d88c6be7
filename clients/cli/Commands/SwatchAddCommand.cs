using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Keeps one swatch, or puts a corrected one in its place. The common --light and --observer say for what a Lab or XYZ holds, --finish what the dried film is.</summary>
internal static class SwatchAddCommand
{
    private static readonly Argument<string> Id = new("id") { Description = "The swatch to be corrected, as swatch list shows it" };

    private static readonly Argument<string> Recipe = new("recipe") { Description = "What was painted: \"1 kelp + 4 gull white\", or one paint" };

    private static readonly Argument<string> Colour = new("colour") { Description = "The colour it dried to: \"#8a9b7c\", 8a9b7c, lab:61,-9,15 or xyz:27,30,22 (in a shell a bare # begins a comment: quote it, or leave it out)" };

    private static readonly Option<string> Over = new("--over") { Description = "What lies beneath a film that does not hide: black, white (of a contrast card), or a colour [default: the layer hides]", HelpName = "COLOUR" };

    private static readonly Option<string> Film = new("--film") { Description = "A name that the swatches of one film over several backings share", HelpName = "NAME" };

    private static readonly Option<double?> Thickness = OptionOf.Number("--thickness", "UM", "Dry thickness of the film, in micrometres", least: 0.001, example: "40");

    private static readonly Option<int?> Coats = OptionOf.Whole("--coats", "N", "Coats of the film", least: 1, example: "2");

    private static readonly Option<bool> Weighed = new("--weighed") { Description = "The parts were weighed, or measured with a syringe [default: counted in drops]" };

    private static readonly Option<string> Source = new("--source") { Description = "How the colour was read: instrument, photo or guess [default: guess]", HelpName = "WORD" };

    private static readonly Option<string> Specular = new("--specular") { Description = "The surface reflection in an instrument's reading: excluded or included [default: not known]", HelpName = "WORD" };

    private static readonly Option<string> Date = new("--date") { Description = "When it was read, such as 2026-11-25", HelpName = "DATE" };

    private static readonly Option<string> Note = new("--note") { Description = "Anything", HelpName = "TEXT" };

    private static readonly Option[] About = [Over, Film, Thickness, Coats, Weighed, Source, Specular, Date, Note];

    public static Command Create()
    {
        var command = new Command("add", "Keep one swatch: what was painted, and the colour it dried to (--finish: matt, satin or gloss)") { Recipe, Colour };
        Array.ForEach(About, command.Add);
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Swatches.AddSwatchAsync(new AddSwatchRequest { Shelf = CommonOptions.ShelfOf(parsed), Swatch = Given(parsed) }, options),
            new Form<AddSwatchResponse>(SwatchPage.Write, SwatchTable.Of),
            cancel));
        return command;
    }

    public static Command CreateCorrect()
    {
        var command = new Command("correct", "Put a corrected swatch in the place of one: all of it is given anew") { Id, Recipe, Colour };
        Array.ForEach(About, command.Add);
        command.SetAction((parsed, cancel) =>
        {
            Swatch swatch = Given(parsed);
            swatch.Id = parsed.GetValue(Id);
            return parsed.AnswerAsync(
                (service, options) => service.Swatches.CorrectSwatchAsync(new CorrectSwatchRequest { Shelf = CommonOptions.ShelfOf(parsed), Swatch = swatch }, options),
                new Form<CorrectSwatchResponse>(SwatchPage.Write, SwatchTable.Of),
                cancel);
        });
        return command;
    }

    private static Swatch Given(ParseResult parsed)
    {
        var swatch = new Swatch
        {
            Recipe = new RecipeInput { Text = parsed.GetValue(Recipe) },
            Color = Read(parsed, parsed.GetValue(Colour)!),
            Backing = parsed.GetValue(Over) is { } over ? Read(parsed, over) : null,
            Film = parsed.GetValue(Film) ?? "",
            Dosing = parsed.GetValue(Weighed) ? "weighed" : "drops",
            Source = parsed.GetValue(Source) ?? "",
            Specular = parsed.GetValue(Specular) ?? "",
            Finish = parsed.GetValue(CommonOptions.Finish) ?? "",
            Date = parsed.GetValue(Date) ?? "",
            Note = parsed.GetValue(Note) ?? "",
        };
        if (parsed.GetValue(Thickness) is { } thickness)
        {
            swatch.ThicknessUm = thickness;
        }
        if (parsed.GetValue(Coats) is { } coats)
        {
            swatch.Coats = coats;
        }
        return swatch;
    }

    private static ColorInput Read(ParseResult parsed, string colour) => new()
    {
        Text = colour,
        Illuminant = parsed.GetValue(CommonOptions.Light) ?? "",
        ObserverDegrees = parsed.GetValue(CommonOptions.Observer) ?? 0,
    };
}
