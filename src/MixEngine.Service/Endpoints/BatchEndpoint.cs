using Grpc.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Batches;
using MixEngine.Service.Hosting;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Endpoints;

/// <summary>Many questions in one call.</summary>
internal sealed class BatchEndpoint(BatchStore store, ItemSolver solver, LoadedShelves shelves, Drain drain) : Batch.BatchBase
{
    /// <summary>Most items of a unary batch.</summary>
    public const int MostItems = 200;

    private const int LongestId = 100;

    public override async Task Solve(IAsyncStreamReader<SolveRequest> requestStream, IServerStreamWriter<SolveResponse> responseStream, ServerCallContext context)
    {
        if (!await requestStream.MoveNext(context.CancellationToken) || requestStream.Current.PartCase != SolveRequest.PartOneofCase.Open)
        {
            throw new Refusal(StatusCode.InvalidArgument, "open", "The first request of a stream opens the batch; send open with its id.");
        }

        // Answers hold for the shelf as it was when the batch was opened first.
        var open = requestStream.Current.Open;
        CheckId(open.Batch);
        var owner = Caller.Of(context);
        var shelf = shelves.Get(owner, open.Shelf);
        var state = FormattableString.Invariant($"{shelf.Name} {shelf.Revision}");
        string[] remarks = store.Open(owner, open.Batch, state) is var before && before == state
            ? []
            : [$"The shelf changed since this batch was opened ({before} then, {state} now): answers kept from before hold for the shelf as it was."];
        await new BatchStream(owner, open, store, solver, requestStream, responseStream, drain, context).RunAsync(remarks);
    }

    public override async Task<ComputeResponse> Compute(ComputeRequest request, ServerCallContext context)
    {
        if (request.Items.Count is 0 or > MostItems)
        {
            throw new Refusal(StatusCode.InvalidArgument, "items", $"{request.Items.Count} items are given; one call answers 1 to {MostItems}. Ask in several calls, or stream them to Batch.Solve.");
        }

        var answers = new BatchAnswer[request.Items.Count];
        await Parallel.ForAsync(0, answers.Length, new ParallelOptions { CancellationToken = context.CancellationToken, MaxDegreeOfParallelism = Environment.ProcessorCount }, async (i, _) =>
            answers[i] = (await solver.SolveAsync(ItemKey.Filled(request.Items[i], request.Shelf, request.View), request.View, context)).Answer);
        return new ComputeResponse { Answers = { answers } };
    }

    public override Task<DiscardBatchResponse> DiscardBatch(DiscardBatchRequest request, ServerCallContext context)
    {
        CheckId(request.Batch);
        var discarded = store.Discard(Caller.Of(context), request.Batch) ?? throw new Refusal(StatusCode.NotFound, "batch", $"There is no batch '{Shown.Of(request.Batch)}'.");
        return Task.FromResult(new DiscardBatchResponse { Discarded = discarded });
    }

    private static void CheckId(string id)
    {
        if (id.Length is 0 or > LongestId || !id.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.'))
        {
            throw new Refusal(StatusCode.InvalidArgument, "batch", $"'{Shown.Of(id)}' is no id of a batch; write 1 to {LongestId} letters, digits, '-', '_' or '.'.");
        }
    }
}
