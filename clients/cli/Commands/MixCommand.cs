using System.CommandLine;
using System.Globalization;
using MixEngine.Cli.Tables;
using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Mixes that were really made.</summary>
internal static class MixCommand
{
    private static readonly Argument<string[]> Bottles = new("bottles")
    {
        Description = "What went in: \"12 tarred rope\" \"6 kelp @L2207\" (drops, the bottle, and after @ what is printed on it)",
        Arity = ArgumentArity.OneOrMore,
    };

    private static readonly Option<string?> Swatch = new("--swatch") { Description = "The dried swatch, measured afterwards: #5a6b3c or lab:40,-12,20", HelpName = "COLOUR" };

    private static readonly Option<string?> Notes = new("--notes") { Description = "What is to be remembered", HelpName = "TEXT" };

    private static readonly Option<int?> Run = OptionOf.Whole("--run", "N", "The scheme run it was made for", least: 1, example: "3");

    private static readonly Option<int?> Pot = OptionOf.Whole("--pot", "N", "Its pot of that run", least: 1, example: "4");

    public static Command Create() => new("mix", "A record of the mixes really made") { Log(), List() };

    private static Command Log()
    {
        var command = new Command("log", "Note a mix that was made: bottles, drops, and the swatch that came of it") { Bottles, Swatch, Notes, Run, Pot };
        command.SetAction((parsed, cancel) =>
        {
            var mix = new MadeMix { Notes = parsed.GetValue(Notes) ?? "", Run = parsed.GetValue(Run) ?? 0, Pot = parsed.GetValue(Pot) ?? 0, Parts = { parsed.GetValue(Bottles)!.Select(PartOf) } };
            if (parsed.GetValue(Swatch) is { } swatch)
            {
                mix.Swatch = new ColorInput { Text = swatch };
            }

            // One id however often it is asked: a mix whose answer was lost is not noted twice.
            var request = new LogMixRequest { Mix = mix, RequestId = Guid.NewGuid().ToString("N") };
            return parsed.AnswerAsync(
                (service, options) => service.Schemes.LogMixAsync(request, options),
                new Form<LogMixResponse>((page, answer) => Write(page, answer.Mix), answer => SchemeTables.Of([answer.Mix])), cancel);
        });
        return command;
    }

    private static Command List()
    {
        var command = new Command("list", "The mixes that were noted, the latest first") { Run };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Schemes.ListMixesAsync(new ListMixesRequest { Run = parsed.GetValue(Run) ?? 0 }, options),
            new Form<ListMixesResponse>(
                (page, answer) =>
                {
                    foreach (MadeMix mix in answer.Mixes)
                    {
                        Write(page, mix);
                    }
                },
                answer => SchemeTables.Of(answer.Mixes)),
            cancel));
        return command;
    }

    private static void Write(Page page, MadeMix mix)
    {
        string of = mix.Run > 0 ? $"   run {mix.Run}{(mix.Pot > 0 ? $", pot {mix.Pot}" : "")}" : "";
        page.Line($"  {mix.Id,5}  {mix.Made[..Math.Min(16, mix.Made.Length)].Replace('T', ' ')}{of}");
        page.Line("         " + string.Join(" + ", mix.Parts.Select(part => $"{Cells.Of(part.Drops)} {part.Paint}{(part.Batch.Length > 0 ? $" @{part.Batch}" : "")}")));
        if (mix.Swatch is { } swatch)
        {
            page.Beside("         ", swatch.Text.StartsWith('#') ? swatch.Text : null, $"dried: {swatch.Text}");
        }
        if (mix.Notes.Length > 0)
        {
            page.Prose(mix.Notes, 9);
        }
    }

    // "6 kelp @L2207": drops, the bottle, and what is printed on it.
    private static MadePart PartOf(string text)
    {
        string[] halves = text.Split('@', 2, StringSplitOptions.TrimEntries);
        string[] words = halves[0].Split(' ', 2, StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (words.Length < 2 || !double.TryParse(words[0], NumberStyles.Float, Numerals.Invariant, out double drops) || !(drops > 0))
        {
            throw new Refusal($"\"{text}\" does not say how many drops of what. Write it like \"12 tarred rope\", with @ and what is printed on the bottle after it if you like.");
        }
        return new MadePart { Paint = words[1], Drops = drops, Batch = halves.Length > 1 ? halves[1] : "" };
    }
}
