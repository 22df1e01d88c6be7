using MixEngine.V1;

namespace MixEngine.Client;

/// <summary>Batches of any length over the service's stream of questions and answers.</summary>
public static class Batches
{
    /// <summary>
    /// Asks all items over several streams at once, which a channel to replicas spreads over them, and goes on elsewhere where one breaks. Each item has one answer, in the order
    /// in which they are done; an answer that says why there is none (<see cref="BatchAnswer.Error"/>) is an answer too. What has been taken from here is acknowledged with
    /// later questions; the last stay kept until the batch is discarded.
    /// </summary>
    /// <param name="client">Whom to ask.</param>
    /// <param name="open">The batch. Under the same id again, after this program itself has died, what was answered and not acknowledged comes first, and is not solved again; leave out what you have.</param>
    /// <param name="items">The items, each with a key of its own. No more of them are taken than are under way.</param>
    /// <param name="options">How; null: as is usual.</param>
    /// <param name="cancel">Stops asking.</param>
    /// <exception cref="Grpc.Core.RpcException">The service refuses the batch, or nobody has answered for longer than <see cref="BatchOptions.Patience"/>.</exception>
    public static IAsyncEnumerable<BatchAnswer> SolveAllAsync(
        this Batch.BatchClient client, OpenBatch open, IAsyncEnumerable<BatchItem> items, BatchOptions? options = null, CancellationToken cancel = default) =>
        new BatchRun(client, open, options ?? new BatchOptions()).RunAsync(items, cancel);

    /// <inheritdoc cref="SolveAllAsync(Batch.BatchClient, OpenBatch, IAsyncEnumerable{BatchItem}, BatchOptions?, CancellationToken)"/>
    public static IAsyncEnumerable<BatchAnswer> SolveAllAsync(
        this Batch.BatchClient client, OpenBatch open, IEnumerable<BatchItem> items, BatchOptions? options = null, CancellationToken cancel = default) =>
        client.SolveAllAsync(open, items.ToAsyncEnumerable(), options, cancel);
}
