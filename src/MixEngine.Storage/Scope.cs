namespace MixEngine.Storage;

/// <summary>What a key may do; each also may do what the ones before it may.</summary>
public enum Scope
{
    /// <summary>Ask, and change nothing that is kept.</summary>
    Read,

    /// <summary>Change what belongs to the key's owner.</summary>
    Write,

    /// <summary>See how the service itself is doing.</summary>
    Admin,
}
