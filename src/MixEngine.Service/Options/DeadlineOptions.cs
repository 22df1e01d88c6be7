namespace MixEngine.Service.Options;

/// <summary>How long a call may take whose client does not say.</summary>
public sealed class DeadlineOptions
{
    /// <summary>60 s by default. A client that gives its own deadline gets that.</summary>
    public TimeSpan WhereNoneIsGiven { get; init; } = TimeSpan.FromSeconds(60);
}
