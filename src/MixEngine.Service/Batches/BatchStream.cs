using System.Collections.Concurrent;
using System.Threading.Channels;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Service.Hosting;
using MixEngine.Service.Refusals;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Batches;

/// <summary>
/// One connection of a batch: reads items, solves them on all cores, keeps each answer before it is sent. What is in memory is bounded by the rooms of two
/// queues; when they are full no further item is read, and the asker's sending waits. When the service ends, what is being solved is still answered, and the rest is
/// handed back: the asker sends it again, here or elsewhere.
/// </summary>
internal sealed class BatchStream(Owner owner, OpenBatch open, BatchStore store, ItemSolver solver, IAsyncStreamReader<SolveRequest> asked, IServerStreamWriter<SolveResponse> answered, Drain drain, ServerCallContext call)
{
    private const int AnswersBetweenProgress = 64;
    private const int KeptPage = 64;
    private static readonly int Solvers = Environment.ProcessorCount;

    private readonly Channel<BatchItem> _items = Channel.CreateBounded<BatchItem>(Solvers * 2);
    private readonly Channel<Finished> _answers = Channel.CreateBounded<Finished>(Solvers * 16);
    private readonly ConcurrentDictionary<string, byte> _underWay = new();

    // What this connection has sent, or is about to. What is kept besides was finished on another connection, perhaps of another replica, since this one began.
    private readonly SentAnswers _sent = new();
    private int _read;
    private int _answered;
    private bool _handsBack;

    /// <summary>Runs until all items are answered, or the asker has gone.</summary>
    /// <param name="remarks">What is to be said of the batch at its beginning.</param>
    public async Task RunAsync(IReadOnlyList<string> remarks)
    {
        // What one of them throws ends all of them: nobody waits for a queue that nobody serves.
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(call.CancellationToken);
        var (kept, acknowledged) = store.Count(owner, open.Batch);
        await answered.WriteAsync(new SolveResponse { Opened = new BatchOpened { Kept = kept, Acknowledged = acknowledged, Remarks = { remarks } } }, ending.Token);
        await SendKeptAsync(ending.Token);

        var solving = Task.WhenAll(Enumerable.Range(0, Solvers).Select(_ => Task.Run(() => SolveAsync(ending.Token))));
        Task[] all = [EndingAll(ReadAsync(ending.Token), ending), EndingAll(CompleteAnswersAsync(solving), ending), EndingAll(WriteAsync(ending.Token), ending)];
        await Task.WhenAll(all);
        if (_handsBack)
        {
            throw new RpcException(new Status(
                StatusCode.Unavailable, "The service is ending and hands back what it has not answered. Open the batch again, here or elsewhere, and send those items again."));
        }
    }

    private static async Task EndingAll(Task task, CancellationTokenSource ending)
    {
        try
        {
            await task;
        }
        catch
        {
            await ending.CancelAsync();
            throw;
        }
    }

    private async Task ReadAsync(CancellationToken cancel)
    {
        using var reading = CancellationTokenSource.CreateLinkedTokenSource(cancel, drain.Leaving);
        try
        {
            while (await asked.MoveNext(reading.Token))
            {
                switch (asked.Current.PartCase)
                {
                    case SolveRequest.PartOneofCase.Item:
                        await TakeAsync(ItemKey.Filled(asked.Current.Item, open.Shelf, open.View), reading.Token);
                        break;
                    case SolveRequest.PartOneofCase.Acknowledge:
                        store.Acknowledge(owner, open.Batch, asked.Current.Acknowledge.Keys);
                        break;
                    case SolveRequest.PartOneofCase.Close:
                        return;
                    case SolveRequest.PartOneofCase.Open:
                        throw new Refusal(StatusCode.InvalidArgument, "open", "The batch is open already; one stream carries one batch.");
                    default:
                        throw new Refusal(StatusCode.InvalidArgument, "part", "The request is empty; send an item, an acknowledgement or close.");
                }
            }
        }
        catch (OperationCanceledException) when (drain.Leaving.IsCancellationRequested && !cancel.IsCancellationRequested)
        {
            _handsBack = true;
        }
        finally
        {
            _items.Writer.Complete();
        }
    }

    private async Task TakeAsync(BatchItem item, CancellationToken cancel)
    {
        Interlocked.Increment(ref _read);
        if (ItemKey.Fault(item) is var (field, words))
        {
            await RefuseAsync(item, StatusCode.InvalidArgument, field, words, cancel);
            return;
        }

        if (!_underWay.TryAdd(item.Key, 0))
        {
            await RefuseAsync(item, StatusCode.AlreadyExists, "key", $"'{Shown.Of(item.Key)}' is being solved already; give each item its own key.", cancel);
            return;
        }

        switch (store.Find(owner, open.Batch, item.Key))
        {
            case null:
                await _items.Writer.WriteAsync(item, cancel);
                return;
            case { Acknowledged: false } known when known.ItemHash.AsSpan().SequenceEqual(ItemKey.HashOf(item)) && !IsSentNow(known.Number):
                Interlocked.Increment(ref _answered);
                break;
            case var known:
                await _answers.Writer.WriteAsync(new Finished(Standing(item.Key, ItemKey.HashOf(item), known), null, Solved: false), cancel);
                break;
        }

        _underWay.TryRemove(item.Key, out _);
    }

    private ValueTask RefuseAsync(BatchItem item, StatusCode code, string field, string words, CancellationToken cancel) =>
        _answers.Writer.WriteAsync(new Finished(Refused(item.Key, code, field, words), null, Solved: false), cancel);

    private static BatchAnswer Refused(string key, StatusCode code, string field, string words) => ItemSolver.Refused(key, new Refusal(code, field, words).ToStatus());

    // What to say of an item that was answered before.
    private static BatchAnswer Standing(string key, byte[] hash, StoredAnswer known)
    {
        if (known.Acknowledged)
        {
            return Refused(key, StatusCode.AlreadyExists, "key", $"'{Shown.Of(key)}' was answered and acknowledged before; it is not kept any longer.");
        }

        if (!known.ItemHash.AsSpan().SequenceEqual(hash))
        {
            return Refused(key, StatusCode.AlreadyExists, "key", $"'{Shown.Of(key)}' was another question before; give this one a key of its own.");
        }

        var answer = BatchAnswer.Parser.ParseFrom(known.Answer);
        answer.Kept = true;
        return answer;
    }

    private async Task SolveAsync(CancellationToken cancel)
    {
        await foreach (var item in _items.Reader.ReadAllAsync(cancel))
        {
            if (drain.Leaving.IsCancellationRequested)
            {
                _handsBack = true;
                return;
            }

            var (answer, final) = await solver.SolveAsync(item, open.View, call);
            await _answers.Writer.WriteAsync(new Finished(answer, final ? ItemKey.HashOf(item) : null, Solved: true), cancel);
        }
    }

    private async Task CompleteAnswersAsync(Task solving)
    {
        try
        {
            await solving;
        }
        finally
        {
            _answers.Writer.Complete();
        }
    }

    private async Task WriteAsync(CancellationToken cancel)
    {
        var ready = new List<Finished>();
        while (await _answers.Reader.WaitToReadAsync(cancel))
        {
            ready.Clear();
            while (ready.Count < AnswersBetweenProgress && _answers.Reader.TryRead(out var answer))
            {
                ready.Add(answer);
            }

            foreach (var (answer, _, solved) in Kept(ready))
            {
                if (solved)
                {
                    _underWay.TryRemove(answer.Key, out _);
                }

                await answered.WriteAsync(new SolveResponse { Answer = answer }, cancel);
            }

            Interlocked.Add(ref _answered, ready.Count);
            await answered.WriteAsync(new SolveResponse { Progress = new BatchProgress { Read = Volatile.Read(ref _read), Answered = Volatile.Read(ref _answered) } }, cancel);
        }
    }

    // Kept before sent: what the asker has seen is never solved again. Where another connection was first, its answer goes out and this one's is dropped: no item has two answers.
    private IReadOnlyList<Finished> Kept(List<Finished> ready)
    {
        var final = ready.Where(one => one.KeepAs is not null).Select(one => (one.Answer.Key, Hash: one.KeepAs!, Bytes: one.Answer.ToByteArray())).ToArray();
        var standing = store.Keep(owner, open.Batch, final) ?? throw Discarded();
        foreach (var (_, stands) in final.Zip(standing).Where(pair => pair.First.Hash.AsSpan().SequenceEqual(pair.Second.ItemHash)))
        {
            IsSentNow(stands.Number);
        }

        var first = final.Zip(standing).Where(pair => pair.First.Bytes != pair.Second.Answer).ToDictionary(pair => pair.First.Key, pair => Standing(pair.First.Key, pair.First.Hash, pair.Second));
        return [.. ready.Select(one => one.Solved && first.TryGetValue(one.Answer.Key, out var other) ? one with { Answer = other } : one)];
    }

    // Notes that an answer is sent; false: this connection has sent it before.
    private bool IsSentNow(long number) => _sent.Add(number) ?? throw Discarded();

    private Refusal Discarded() => new(StatusCode.Aborted, "batch", $"'{Shown.Of(open.Batch)}' was discarded while it was being answered. Open it again to ask again.");

    private async Task SendKeptAsync(CancellationToken cancel)
    {
        string? after = null;
        while (store.Kept(owner, open.Batch, after, KeptPage) is { Count: > 0 } page)
        {
            foreach (var (key, number, bytes) in page)
            {
                var answer = BatchAnswer.Parser.ParseFrom(bytes);
                answer.Kept = true;
                IsSentNow(number);
                await answered.WriteAsync(new SolveResponse { Answer = answer }, cancel);
                after = key;
            }
        }
    }

    // What a solver or the reader hands to the writer; kept under that hash where it is final.
    private readonly record struct Finished(BatchAnswer Answer, byte[]? KeepAs, bool Solved);
}
