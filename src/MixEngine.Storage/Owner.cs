namespace MixEngine.Storage;

/// <summary>Whose data it is. Owners never see anything of each other's, not even that it is there. Immutable.</summary>
public sealed record Owner
{
    /// <summary>Most characters of a name.</summary>
    public const int Longest = 64;

    private Owner(string name) => Name = name;

    /// <summary>Who has everything where nobody needs to say who they are: the user of a service at home.</summary>
    public static Owner Home { get; } = new("home");

    /// <summary>What the owner is called: 1 to 64 small letters a to z, digits, '-', '_' or '.'. Compared character by character.</summary>
    public string Name { get; }

    /// <summary>The owner of that name.</summary>
    /// <exception cref="ArgumentException">It is no name for an owner.</exception>
    public static Owner Named(string name) =>
        IsName(name) ? new Owner(name) : throw new ArgumentException($"'{name}' is no name for an owner; use 1 to {Longest} small letters a to z, digits, '-', '_' or '.'.", nameof(name));

    /// <summary>Whether an owner can be called that.</summary>
    public static bool IsName(string name) => name.Length is > 0 and <= Longest && name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c is '-' or '_' or '.');

    /// <inheritdoc/>
    public override string ToString() => Name;
}
