namespace MixEngine.Service.Hosting;

/// <summary>Counts the requests that are being answered, and knows since when there are none.</summary>
public sealed class RequestsUnderWay(TimeProvider clock)
{
    private readonly Lock _lock = new();
    private long _quietSince = clock.GetTimestamp();
    private int _count;

    /// <summary>How many there are now.</summary>
    public int Count
    {
        get
        {
            lock (_lock)
            {
                return _count;
            }
        }
    }

    /// <summary>For how long there have been none; zero while there is one.</summary>
    public TimeSpan QuietFor
    {
        get
        {
            lock (_lock)
            {
                return _count > 0 ? TimeSpan.Zero : clock.GetElapsedTime(_quietSince);
            }
        }
    }

    /// <summary>Answers one request, counted for as long as it takes.</summary>
    public async Task CountAsync(HttpContext context, RequestDelegate next)
    {
        lock (_lock)
        {
            _count++;
        }

        try
        {
            await next(context);
        }
        finally
        {
            lock (_lock)
            {
                _count--;
                _quietSince = clock.GetTimestamp();
            }
        }
    }
}
