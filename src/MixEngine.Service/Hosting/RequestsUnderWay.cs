namespace MixEngine.Service.Hosting;

/// <summary>Counts the requests that are being answered, and knows since when there are none.</summary>
public sealed class RequestsUnderWay(TimeProvider clock)
{
    private long _quietSince = clock.GetTimestamp();
    private int _count;

    /// <summary>How many there are now.</summary>
    public int Count => Volatile.Read(ref _count);

    /// <summary>For how long there have been none; zero while there is one.</summary>
    public TimeSpan QuietFor => Count > 0 ? TimeSpan.Zero : clock.GetElapsedTime(Volatile.Read(ref _quietSince));

    /// <summary>Answers one request, counted for as long as it takes.</summary>
    public async Task CountAsync(HttpContext context, RequestDelegate next)
    {
        Interlocked.Increment(ref _count);
        try
        {
            await next(context);
        }
        finally
        {
            // In this order: who finds none under way must not find an old time beside it.
            Volatile.Write(ref _quietSince, clock.GetTimestamp());
            Interlocked.Decrement(ref _count);
        }
    }
}
