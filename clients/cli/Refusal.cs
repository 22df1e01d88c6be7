namespace MixEngine.Cli;

/// <summary>A question that cannot be asked as it stands. The message names what was given, what was expected and what to do.</summary>
internal sealed class Refusal(string message) : Exception(message);
