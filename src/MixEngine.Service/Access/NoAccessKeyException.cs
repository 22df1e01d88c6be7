namespace MixEngine.Service.Access;

/// <summary>Other machines could reach the service, and nobody could ask it anything.</summary>
public sealed class NoAccessKeyException(string message) : Exception(message);
