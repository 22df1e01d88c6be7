using System.Collections.Concurrent;
using MixEngine.Service.Computing;

namespace MixEngine.Service.Tests.Computing;

/// <summary>Threads for work that takes long.</summary>
public sealed class WorkThreadsTests : IDisposable
{
    private readonly WorkThreads _threads = new("work", 2);
    private readonly ManualResetEventSlim _gate = new();

    public void Dispose()
    {
        _gate.Set();
        _threads.Dispose();
        _gate.Dispose();
    }

    [Fact]
    public async Task Work_is_done_on_a_thread_of_its_own_and_what_comes_after_is_not()
    {
        var isPools = await _threads.RunAsync(() => Thread.CurrentThread.IsThreadPoolThread, TestContext.Current.CancellationToken);
        Assert.False(isPools);
        Assert.NotEqual("work", Thread.CurrentThread.Name);
    }

    [Fact]
    public async Task What_work_throws_is_thrown_to_who_asked_and_others_go_on()
    {
        var fault = await Assert.ThrowsAsync<InvalidOperationException>(() => _threads.RunAsync<int>(() => throw new InvalidOperationException("ebb"), TestContext.Current.CancellationToken));
        Assert.Equal("ebb", fault.Message);
        Assert.Equal(7, await _threads.RunAsync(() => 7, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task No_more_is_under_way_than_there_are_threads()
    {
        var (most, now) = (0, 0);
        var both = Held();
        var waiting = Enumerable.Range(0, 50).Select(i => _threads.RunAsync(
            () =>
            {
                InterlockedMax(ref most, Interlocked.Increment(ref now));
                Thread.Yield();
                Interlocked.Decrement(ref now);
                return i;
            },
            TestContext.Current.CancellationToken)).ToArray();
        _gate.Set();
        Assert.Equal(Enumerable.Range(0, 50), await Task.WhenAll(waiting));
        await Task.WhenAll(both);
        Assert.InRange(most, 1, 2);
    }

    [Fact]
    public async Task What_waits_is_begun_in_its_order()
    {
        using var one = new WorkThreads("one", 1);
        var begun = new List<int>();
        var first = one.RunAsync(() => _gate.Wait(Waiting.Patience), TestContext.Current.CancellationToken);
        var waiting = Enumerable.Range(0, 50).Select(i => one.RunAsync(
            () =>
            {
                begun.Add(i);
                return i;
            },
            TestContext.Current.CancellationToken)).ToArray();
        _gate.Set();
        await Task.WhenAll([first, .. waiting]);
        Assert.Equal(Enumerable.Range(0, 50), begun);
    }

    [Fact]
    public async Task Who_gives_up_while_it_waits_is_not_begun()
    {
        var both = Held();
        using var patience = new CancellationTokenSource();
        var isBegun = false;
        var waiting = _threads.RunAsync(() => isBegun = true, patience.Token);
        await patience.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => waiting);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _threads.RunAsync(() => isBegun = true, patience.Token));
        Assert.All(both, held => Assert.False(held.IsCompleted));
        _gate.Set();
        await Task.WhenAll(both);
        Assert.False(isBegun);
    }

    [Fact]
    public async Task Work_that_shares_itself_out_is_helped_by_idle_threads_and_by_none_of_the_pool()
    {
        var threads = new ConcurrentDictionary<Thread, bool>();
        using var together = new Barrier(2);
        await _threads.RunAsync(
            () => Parallel.For(0, 2, new ParallelOptions { MaxDegreeOfParallelism = 2, TaskScheduler = null }, _ =>
            {
                // Neither goes on before another thread has come to the other.
                threads[Thread.CurrentThread] = Thread.CurrentThread.IsThreadPoolThread;
                Assert.True(together.SignalAndWait(Waiting.Patience), "Nobody helps.");
            }),
            TestContext.Current.CancellationToken);
        Assert.Equal(2, threads.Count);
        Assert.All(threads.Values, Assert.False);
    }

    [Fact]
    public async Task Work_that_shares_itself_out_is_done_by_one_where_no_other_is_idle()
    {
        // As many as there are threads, each with parts that wait behind the other: who waits for a part does it itself.
        var sums = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => _threads.RunAsync(
            () =>
            {
                var sum = 0;
                Parallel.For(0, 1000, new ParallelOptions { MaxDegreeOfParallelism = 2, TaskScheduler = null }, i => Interlocked.Add(ref sum, i));
                return sum;
            },
            TestContext.Current.CancellationToken))).WaitAsync(Waiting.Patience, TestContext.Current.CancellationToken);
        Assert.All(sums, sum => Assert.Equal(499_500, sum));
    }

    [Fact]
    public async Task What_comes_after_the_end_is_still_done()
    {
        Assert.Equal(1, await _threads.RunAsync(() => 1, TestContext.Current.CancellationToken));
        _threads.Dispose();
        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(i, await _threads.RunAsync(() => i, TestContext.Current.CancellationToken).WaitAsync(Waiting.Patience, TestContext.Current.CancellationToken));
        }
    }

    // Both threads are busy until the gate opens.
    private Task[] Held()
    {
        using var begun = new CountdownEvent(2);
        Task[] both =
        [
            .. Enumerable.Range(0, 2).Select(_ => _threads.RunAsync(
                () =>
                {
                    begun.Signal();
                    return _gate.Wait(Waiting.Patience);
                },
                CancellationToken.None)),
        ];
        Assert.True(begun.Wait(Waiting.Patience), "Nobody begins.");
        return both;
    }

    private static void InterlockedMax(ref int most, int value)
    {
        for (var known = Volatile.Read(ref most); value > known && Interlocked.CompareExchange(ref most, value, known) is var seen && seen != known; known = seen)
        {
        }
    }
}
