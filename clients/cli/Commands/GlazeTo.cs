using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Which glaze brings it there?</summary>
internal static class GlazeTo
{
    public static readonly Option<string> Target = new("--to")
    {
        Description = "The other way round: which let-down and how many coats bring the layer (or, with --over several times, a whole ramp) to this colour",
        HelpName = "COLOUR",
    };

    /// <summary>Asks it. What a plain glaze states is taken over: the recipe (none: the whole shelf), its let-down, the most coats.</summary>
    public static Task<int> AnswerAsync(ParseResult parsed, GlazeRequest glaze, bool mediumIsStated, IEnumerable<Surface> over, CancellationToken cancel)
    {
        var request = new GlazeToRequest
        {
            Shelf = glaze.Shelf,
            View = glaze.View,
            Target = new ColorInput { Text = parsed.GetValue(Target)! },
            WaterParts = glaze.WaterParts,
            Coats = glaze.Coats,
            Over = { over },
        };
        if (glaze.Recipe.Text.Length > 0)
        {
            request.Recipes.Add(glaze.Recipe);
        }
        if (mediumIsStated)
        {
            request.MediumParts.Add(glaze.MediumParts);
        }
        if (glaze.HasFilmThicknessUm)
        {
            request.FilmThicknessUm = glaze.FilmThicknessUm;
        }
        return parsed.AnswerAsync(
            (service, options) => service.Layering.GlazeToAsync(request, options),
            new Form<GlazeToResponse>(GlazeToPage.Write, GlazeToTable.Of)
            {
                ExitCode = answer => answer.Reached ? ExitCode.Answered : ExitCode.CannotBeReached,
            },
            cancel);
    }
}
