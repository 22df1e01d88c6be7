namespace MixEngine.Service.Computing;

/// <summary>
/// Threads for work that computes for long, begun in the order in which it was asked for. The pool's threads stay free for what must be heard at once: that a caller has gone, that time is
/// up, a health check.
/// </summary>
/// <remarks>Work that shares itself out among tasks of the current scheduler is helped by those of the threads that have nothing else to do.</remarks>
internal sealed class WorkThreads(string name, int most) : TaskScheduler, IDisposable
{
    private readonly LinkedList<Task> _waiting = new();
    private int _started;
    private int _idle;
    private bool _ended;

    /// <summary>How much can be under way at once.</summary>
    public override int MaximumConcurrencyLevel => most;

    /// <summary>Does some work when a thread is free for it.</summary>
    /// <param name="work">What to do.</param>
    /// <param name="cancel">Takes it out of the queue; what has begun watches it for itself.</param>
    public Task<T> RunAsync<T>(Func<T> work, CancellationToken cancel)
    {
        // Made first and started then: a task of Task.Factory.StartNew that is cancelled stays in the queue until its turn.
        var task = new Task<T>(work, cancel, TaskCreationOptions.DenyChildAttach);
        try
        {
            task.Start(this);
        }
        catch (InvalidOperationException) when (task.IsCanceled)
        {
            // Given up before it could wait.
        }

        return task;
    }

    /// <summary>Lets the threads go when what waits is done.</summary>
    public void Dispose()
    {
        lock (_waiting)
        {
            _ended = true;
            Monitor.PulseAll(_waiting);
        }
    }

    protected override void QueueTask(Task task)
    {
        lock (_waiting)
        {
            _waiting.AddLast(task);

            // One that was woken and has not yet come to take its task still counts as idle.
            if (_waiting.Count > _idle && _started < most)
            {
                _started++;
                new Thread(Work) { IsBackground = true, Name = name }.UnsafeStart();
            }
            else
            {
                Monitor.Pulse(_waiting);
            }
        }
    }

    protected override bool TryDequeue(Task task)
    {
        lock (_waiting)
        {
            return _waiting.Remove(task);
        }
    }

    // Who waits for a task that no thread has begun does it itself.
    protected override bool TryExecuteTaskInline(Task task, bool taskWasPreviouslyQueued) => (!taskWasPreviouslyQueued || TryDequeue(task)) && TryExecuteTask(task);

    protected override IEnumerable<Task> GetScheduledTasks()
    {
        lock (_waiting)
        {
            return [.. _waiting];
        }
    }

    private void Work()
    {
        while (Next() is { } task)
        {
            TryExecuteTask(task);
        }
    }

    private Task? Next()
    {
        lock (_waiting)
        {
            while (_waiting.Count == 0)
            {
                if (_ended)
                {
                    // Work that comes after all begins another.
                    _started--;
                    return null;
                }

                _idle++;
                Monitor.Wait(_waiting);
                _idle--;
            }

            var first = _waiting.First!.Value;
            _waiting.RemoveFirst();
            return first;
        }
    }
}
