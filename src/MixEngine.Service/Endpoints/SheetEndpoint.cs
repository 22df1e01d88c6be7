using Grpc.Core;
using MixEngine.Service.Sheets;
using MixEngine.V1;

namespace MixEngine.Service.Endpoints;

/// <summary>Many cells in one call.</summary>
internal sealed class SheetEndpoint(MixingEndpoint mixing, ILogger<SheetEndpoint> logger) : Sheet.SheetBase
{
    public override async Task<AnswerCellsResponse> AnswerCells(AnswerCellsRequest request, ServerCallContext context)
    {
        CellQuestions.Check(request.Questions);
        var answers = await new CellQuestions(mixing, logger).AnswerAsync(request.Questions, context);
        return new AnswerCellsResponse { Answers = { answers } };
    }
}
