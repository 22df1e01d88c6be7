namespace MixEngine.Storage;

/// <summary>A request that may be sent again because its answer was lost, and is then done once.</summary>
/// <param name="Id">Chosen by whoever asks, new for each request.</param>
/// <param name="Hash">Tells whether the same is asked when the id comes again.</param>
public sealed record RepeatableRequest(string Id, byte[] Hash)
{
    /// <summary>Whether it is the one that was kept with this hash under its id.</summary>
    /// <exception cref="RequestIdTakenException">The id was another request's.</exception>
    internal void ThrowUnlessSame(byte[] kept)
    {
        if (!kept.AsSpan().SequenceEqual(Hash))
        {
            throw new RequestIdTakenException(Id);
        }
    }
}

/// <summary>An id was given to two requests that differ; the second was not done.</summary>
public sealed class RequestIdTakenException(string id) : Exception($"The request id '{id}' was another request's.");
