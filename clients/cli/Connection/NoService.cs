namespace MixEngine.Cli.Connection;

/// <summary>No service could be reached or started. The message says where it was sought and what to do.</summary>
internal sealed class NoService(string message, Exception? cause = null) : Exception(message, cause);
