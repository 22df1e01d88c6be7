namespace MixEngine.Service.Access;

/// <summary>Said of a connection on which nobody is answered without an access key.</summary>
internal sealed class KeyRequired
{
    /// <summary>It says nothing but that.</summary>
    public static KeyRequired Instance { get; } = new();
}
