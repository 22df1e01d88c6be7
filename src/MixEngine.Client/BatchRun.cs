using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Threading.Channels;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Client;

/// <summary>One batch: items wait in one queue, from which every stream takes; what a broken stream had under way goes back to the queue.</summary>
internal sealed class BatchRun(Batch.BatchClient client, OpenBatch open, BatchOptions options)
{
    private static readonly TimeSpan ShortestPause = TimeSpan.FromMilliseconds(100), LongestPause = TimeSpan.FromSeconds(2);

    private readonly Channel<BatchItem> _waiting = Channel.CreateUnbounded<BatchItem>();
    private readonly Channel<BatchAnswer> _answers = Channel.CreateBounded<BatchAnswer>(options.Streams * options.ItemsPerStream);
    private readonly Channel<string> _taken = Channel.CreateUnbounded<string>();
    private readonly SemaphoreSlim _room = new(options.Streams * options.ItemsPerStream);
    private readonly Lock _lock = new();

    // Asked for, and not yet answered; and all that was answered, so that nothing is handed over twice.
    private readonly HashSet<string> _asked = [], _answered = [];
    private bool _allAsked;
    private long _lastAnswer = Stopwatch.GetTimestamp();

    public async IAsyncEnumerable<BatchAnswer> RunAsync(IAsyncEnumerable<BatchItem> items, [EnumeratorCancellation] CancellationToken cancel)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        var running = CompleteAsync(Task.WhenAll([.. Enumerable.Range(0, options.Streams).Select(_ => EndingAll(StreamAsync(ending.Token), ending)), EndingAll(FeedAsync(items, ending.Token), ending)]));
        try
        {
            await foreach (var answer in _answers.Reader.ReadAllAsync(cancel))
            {
                yield return answer;
                _taken.Writer.TryWrite(answer.Key);
            }
        }
        finally
        {
            // A caller who has gone ends the streams at once.
            if (!_answers.Reader.Completion.IsCompleted)
            {
                await ending.CancelAsync();
            }

            await running;
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

    private async Task CompleteAsync(Task all)
    {
        try
        {
            await all;
            _answers.Writer.TryComplete();
        }
        catch (Exception fault)
        {
            // The first fault is the cause; that the others were stopped follows from it.
            _answers.Writer.TryComplete(all.Exception?.InnerExceptions.FirstOrDefault(one => one is not OperationCanceledException) ?? fault);
        }
    }

    private async Task FeedAsync(IAsyncEnumerable<BatchItem> items, CancellationToken cancel)
    {
        await foreach (var item in items.WithCancellation(cancel))
        {
            await _room.WaitAsync(cancel);
            lock (_lock)
            {
                if (_answered.Contains(item.Key) || !_asked.Add(item.Key))
                {
                    _room.Release();
                    continue;
                }
            }

            _waiting.Writer.TryWrite(item);
        }

        lock (_lock)
        {
            _allAsked = true;
            EndIfAllIsAnswered();
        }
    }

    private void EndIfAllIsAnswered()
    {
        if (_allAsked && _asked.Count == 0)
        {
            _waiting.Writer.TryComplete();
        }
    }

    private async Task StreamAsync(CancellationToken cancel)
    {
        for (var pause = ShortestPause; !_waiting.Reader.Completion.IsCompleted; pause = pause * 2 < LongestPause ? pause * 2 : LongestPause)
        {
            var underWay = new Dictionary<string, BatchItem>();
            var before = Volatile.Read(ref _lastAnswer);
            try
            {
                await StreamOnceAsync(underWay, cancel);
            }
            catch (RpcException fault) when (IsLost(fault) && !cancel.IsCancellationRequested && Stopwatch.GetElapsedTime(Volatile.Read(ref _lastAnswer)) < options.Patience)
            {
                options.OnBroken?.Invoke(fault);
            }
            finally
            {
                lock (_lock)
                {
                    foreach (var item in underWay.Values)
                    {
                        _waiting.Writer.TryWrite(item);
                    }
                }
            }

            pause = Volatile.Read(ref _lastAnswer) == before ? pause : ShortestPause;
            await Task.Delay(pause * (0.8 + 0.4 * Random.Shared.NextDouble()), cancel);
        }
    }

    private async Task StreamOnceAsync(Dictionary<string, BatchItem> underWay, CancellationToken cancel)
    {
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        using var room = new SemaphoreSlim(options.ItemsPerStream);
        using var call = client.Solve(cancellationToken: ended.Token);
        var reading = ReadAsync(call.ResponseStream, underWay, room, ended.Token);
        var writing = WriteAsync(call.RequestStream, underWay, room, ended.Token);
        try
        {
            // It ends with the call, and says how that ended; what could not be written only follows from it.
            await reading;
        }
        finally
        {
            await ended.CancelAsync();
            await Task.WhenAll(reading, writing).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task WriteAsync(IClientStreamWriter<SolveRequest> asking, Dictionary<string, BatchItem> underWay, SemaphoreSlim room, CancellationToken cancel)
    {
        await asking.WriteAsync(new SolveRequest { Open = open }, cancel);
        while (true)
        {
            await room.WaitAsync(cancel);
            if (!await _waiting.Reader.WaitToReadAsync(cancel))
            {
                break;
            }

            await AcknowledgeAsync(asking, cancel);
            if (!_waiting.Reader.TryRead(out var item))
            {
                room.Release();
                continue;
            }

            lock (_lock)
            {
                // Another stream may have brought its answer, kept from before that one broke.
                if (!_asked.Contains(item.Key))
                {
                    room.Release();
                    continue;
                }

                underWay.Add(item.Key, item);
            }

            await asking.WriteAsync(new SolveRequest { Item = item }, cancel);
        }

        await AcknowledgeAsync(asking, cancel);
        await asking.WriteAsync(new SolveRequest { Close = new CloseBatch() }, cancel);
        await asking.CompleteAsync();
    }

    private async Task AcknowledgeAsync(IClientStreamWriter<SolveRequest> asking, CancellationToken cancel)
    {
        var safe = new AcknowledgeAnswers();
        while (_taken.Reader.TryRead(out var key))
        {
            safe.Keys.Add(key);
        }

        if (safe.Keys.Count > 0)
        {
            await asking.WriteAsync(new SolveRequest { Acknowledge = safe }, cancel);
        }
    }

    private async Task ReadAsync(IAsyncStreamReader<SolveResponse> answering, Dictionary<string, BatchItem> underWay, SemaphoreSlim room, CancellationToken cancel)
    {
        await foreach (var response in answering.ReadAllAsync(cancel))
        {
            if (response.Answer is not { } answer)
            {
                continue;
            }

            bool isNew, wasOurs, again;
            lock (_lock)
            {
                wasOurs = underWay.Remove(answer.Key, out var item);

                // The database was away, or the service: that is no answer to the question.
                again = item is not null && answer.Error?.Code == (int)StatusCode.Unavailable && _asked.Contains(answer.Key);
                if (again)
                {
                    _waiting.Writer.TryWrite(item!);
                }

                isNew = !again && _answered.Add(answer.Key);
            }

            if (isNew)
            {
                Volatile.Write(ref _lastAnswer, Stopwatch.GetTimestamp());
                await _answers.Writer.WriteAsync(answer, cancel);
                lock (_lock)
                {
                    if (_asked.Remove(answer.Key))
                    {
                        _room.Release();
                    }

                    EndIfAllIsAnswered();
                }
            }

            if (again)
            {
                await Task.Delay(ShortestPause, cancel);
            }

            if (wasOurs)
            {
                room.Release();
            }
        }
    }

    private static bool IsLost(RpcException fault) =>
        fault.StatusCode is StatusCode.Unavailable || (fault.StatusCode is StatusCode.Internal or StatusCode.Cancelled && fault.Status.DebugException is not null);
}
