using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>What goes beneath, so that fewer coats cover?</summary>
internal static class UndercoatQuestion
{
    public static readonly Option<bool> Asked = new("--undercoat") { Description = "The primer that takes fewest coats, and the undercoat of the shelf that saves some" };

    public static Task<int> AnswerAsync(ParseResult parsed, CoverRequest cover, CancellationToken cancel)
    {
        var request = new UndercoatRequest { Shelf = cover.Shelf, View = cover.View, Recipe = cover.Recipe, Over = cover.Over };
        if (cover.HasFilmThicknessUm)
        {
            request.FilmThicknessUm = cover.FilmThicknessUm;
        }
        return parsed.AnswerAsync(
            (service, options) => service.Layering.UndercoatAsync(request, options),
            new Form<UndercoatResponse>(UndercoatPage.Write, UndercoatTable.Of)
            {
                ExitCode = answer => answer.Primers.All(plan => plan.HasCoats || plan.Undercoat is not null) ? ExitCode.Answered : ExitCode.CannotBeReached,
            },
            cancel);
    }
}
