using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>What else is asked of ramps: is mine even, what comes next, what goes between, and which one leads through this colour?</summary>
internal static class RampInUse
{
    private static readonly Option<bool> Audit = new("--audit") { Description = "The recipes are a ramp in use: what is wrong with its steps, and the fewest drops that mend it" };

    private static readonly Option<bool> Between = new("--between") { Description = "One more layer between two recipes" };

    private static readonly Option<string> Extend = new("--extend") { Description = "The recipes are a ramp in use: one more step at its light or its dark end", HelpName = "END" };

    private static readonly Option<string[]> With = new("--with") { Description = "With --extend: a paint to go on with, given once or several times [default: the whole shelf]", HelpName = "PAINT" };

    private static readonly Option<string> Around = new("--around") { Description = "No recipes: a ramp around this colour, its shadows and highlights from the shelf", HelpName = "COLOUR" };

    private static readonly Option<string> Hue = new("--hue") { Description = "With --around: \"straight\", \"warm light\", \"cool shadow\" or \"warm light, cool shadow\" [default: straight]", HelpName = "PATH" };

    public static IEnumerable<Option> Options => [Audit, Between, Extend, With, Around, Hue];

    /// <summary>The option that turns the question into another one; null: a new ramp is asked for.</summary>
    public static string? Chosen(ParseResult parsed)
    {
        string[] chosen =
        [
            .. parsed.GetValue(Audit) ? ["--audit"] : Array.Empty<string>(),
            .. parsed.GetValue(Between) ? ["--between"] : Array.Empty<string>(),
            .. parsed.GetValue(Extend) is not null ? ["--extend"] : Array.Empty<string>(),
            .. parsed.GetValue(Around) is not null ? ["--around"] : Array.Empty<string>(),
        ];
        return chosen switch
        {
            [] => null,
            [var one] => one,
            _ => throw new Refusal($"{string.Join(" and ", chosen)} are different questions. Ask one of them."),
        };
    }

    /// <summary>Whether so many recipes make the question; what is missing otherwise.</summary>
    public static string? Lacks(bool around, bool between, int recipes) => (around, between, recipes) switch
    {
        (true, _, 0) => null,
        (true, _, _) => "--around leads through one colour: leave the paints out.",
        (_, true, > 2) => "--between goes between two recipes. Give two, each in quotes.",
        (_, _, < 2) => "Required argument 'paints' missing for command: 'ramp'. Give two or more, each in quotes.",
        _ => null,
    };

    public static bool AsksAround(System.CommandLine.Parsing.CommandResult command) => command.GetResult(Around) is not null;

    public static bool AsksBetween(System.CommandLine.Parsing.CommandResult command) => command.GetResult(Between) is not null;

    public static Task<int> AnswerAsync(ParseResult parsed, string chosen, RampRequest ramp, CancellationToken cancel)
    {
        switch (chosen)
        {
            case "--audit":
                var audit = new AuditRampRequest { Shelf = ramp.Shelf, View = ramp.View, Drops = ramp.Drops, TopStep = ramp.TopStep, Steps = { ramp.Through } };
                return parsed.AnswerAsync(
                    (service, options) => service.Layering.AuditRampAsync(audit, options), new Form<AuditRampResponse>(AuditPage.Write, AuditTable.Of), cancel);
            case "--between":
                var between = new StepBetweenRequest { Shelf = ramp.Shelf, View = ramp.View, Drops = ramp.Drops, From = ramp.Through[0], To = ramp.Through[1] };
                return parsed.AnswerAsync(
                    (service, options) => service.Layering.StepBetweenAsync(between, options),
                    new Form<StepBetweenResponse>(RampInUsePage.Write, RampInUseTable.Of)
                    {
                        ExitCode = answer => answer.Between is null ? ExitCode.CannotBeReached : ExitCode.Answered,
                    },
                    cancel);
            case "--extend":
                var extend = new ExtendRampRequest
                {
                    Shelf = ramp.Shelf, View = ramp.View, Drops = ramp.Drops, Steps = { ramp.Through }, End = parsed.GetValue(Extend)!, With = { parsed.GetValue(With) ?? [] },
                };
                return parsed.AnswerAsync(
                    (service, options) => service.Layering.ExtendRampAsync(extend, options),
                    new Form<ExtendRampResponse>(RampInUsePage.Write, RampInUseTable.Of)
                    {
                        ExitCode = answer => answer.Extensions.Count == 0 ? ExitCode.CannotBeReached : ExitCode.Answered,
                    },
                    cancel);
            default:
                var around = new RampAroundRequest
                {
                    Shelf = ramp.Shelf, View = ramp.View, Drops = ramp.Drops, Steps = ramp.Steps, Difference = ramp.Difference,
                    Target = new ColorInput { Text = parsed.GetValue(Around)! }, HuePath = parsed.GetValue(Hue) ?? "",
                };
                return parsed.AnswerAsync(
                    (service, options) => service.Layering.RampAroundAsync(around, options),
                    new Form<RampAroundResponse>(RampInUsePage.Write, answer => RampTable.Of(answer.Ramp)), cancel);
        }
    }
}
