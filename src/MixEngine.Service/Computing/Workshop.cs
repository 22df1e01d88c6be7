namespace MixEngine.Service.Computing;

/// <summary>Where the service computes what may take long. Searches and layers have threads of their own each: who asks for a glaze does not wait for other people's matches.</summary>
internal sealed class Workshop : IDisposable
{
    // More than the processors, so that a short search gets its turn beside long ones; not many more, so that searches come to an end one after the other instead of all late.
    private static readonly int Most = 4 * Environment.ProcessorCount;

    /// <summary>Matches, ramps and schemes, what is sought among the paints of a shelf; and what is learnt from its swatches.</summary>
    public WorkThreads Searches { get; } = new("search", Most);

    /// <summary>Glazes, coats and undercoats: what is computed layer by layer.</summary>
    public WorkThreads Layers { get; } = new("layers", Most);

    public void Dispose()
    {
        Searches.Dispose();
        Layers.Dispose();
    }
}
