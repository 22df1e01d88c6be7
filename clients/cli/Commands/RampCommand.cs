using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>How do I step from one to the other?</summary>
internal static class RampCommand
{
    private static readonly Argument<string[]> Through = Words.WithoutOptions(new Argument<string[]>("paints")
    {
        Description = "Two or more paints or recipes, in their order, each in quotes",
        Arity = new ArgumentArity(0, 1000),
    });

    private static readonly Option<int?> Steps = OptionOf.Whole("--steps", "N", "How many steps, both ends counted [default: 6]", least: 1, example: "6");

    private static readonly Option<int?> Drops = OptionOf.Whole("--drops", "N", "Most drops in one step [default: 6]", least: 1, example: "6");

    public static Command Create()
    {
        var command = new Command("ramp", "Steps from dark to light, even to the eye, in whole drops") { Through, Steps, Drops };
        foreach (Option option in RampShape.Options.Concat(RampInUse.Options))
        {
            command.Add(option);
        }
        command.Validators.Add(result =>
        {
            if (RampInUse.Lacks(RampInUse.AsksAround(result), RampInUse.AsksBetween(result), result.GetResult(Through)?.Tokens.Count ?? 0) is { } missing)
            {
                result.AddError(missing);
            }
        });
        command.SetAction((parsed, cancel) => RampInUse.Chosen(parsed) is { } chosen
            ? RampInUse.AnswerAsync(parsed, chosen, Request(parsed), cancel)
            : parsed.AnswerAsync(
                (service, options) => service.Mixing.RampAsync(Request(parsed), options),
                new Form<RampResponse>(RampPage.Write, RampTable.Of),
                cancel));
        return command;
    }

    private static RampRequest Request(ParseResult parsed)
    {
        var request = new RampRequest
        {
            Shelf = CommonOptions.ShelfOf(parsed),
            View = CommonOptions.ViewOf(parsed),
            Steps = parsed.GetValue(Steps) ?? 0,
            Drops = parsed.GetValue(Drops) ?? 0,
        };
        RampShape.Into(request, parsed, parsed.GetValue(Steps) is not null);
        request.Through.AddRange(parsed.GetValue(Through)!.Select(text => new RecipeInput { Text = text }));
        return request;
    }
}
