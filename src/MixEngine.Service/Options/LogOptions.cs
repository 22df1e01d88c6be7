namespace MixEngine.Service.Options;

/// <summary>How the log is written.</summary>
public sealed class LogOptions
{
    /// <summary>Text for people.</summary>
    public const string Text = "text";

    /// <summary>One JSON object a line.</summary>
    public const string Json = "json";

    /// <summary>"text" or "json". Null, the default: text on a terminal, JSON everywhere else.</summary>
    public string? Form { get; init; }
}
