namespace MixEngine.Storage;

/// <summary>The file cannot serve as our database. The message says why, and what to do, in plain words; the file was left as it was.</summary>
public sealed class UnusableDatabaseException(string message, Exception? inner = null) : Exception(message, inner);
