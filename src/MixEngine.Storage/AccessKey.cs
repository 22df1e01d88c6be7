namespace MixEngine.Storage;

/// <summary>What is known of an access key; never the key itself. Immutable.</summary>
/// <param name="Id">What it is called, for lists and for revoking it. No secret.</param>
/// <param name="Owner">Whose data its bearer works on.</param>
/// <param name="Scope">What its bearer may do.</param>
/// <param name="Label">Who or what has it, in its maker's words.</param>
/// <param name="Created">When it was made.</param>
/// <param name="Revoked">Since when it opens nothing any more; null: it was not revoked.</param>
/// <param name="Expires">From when on it opens nothing; null: it does not expire.</param>
public sealed record AccessKey(string Id, Owner Owner, Scope Scope, string Label, DateTimeOffset Created, DateTimeOffset? Revoked, DateTimeOffset? Expires = null)
{
    /// <summary>Whether its time is over.</summary>
    public bool HasExpired(DateTimeOffset now) => Expires <= now;

    /// <summary>Whether it opens anything.</summary>
    public bool Holds(DateTimeOffset now) => Revoked is null && !HasExpired(now);
}
