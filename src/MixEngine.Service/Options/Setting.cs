namespace MixEngine.Service.Options;

/// <summary>One thing that can be said to the service when it starts. It has one name on the command line, in the environment and in the file.</summary>
/// <param name="Name">Small letters, words parted by '-': "idle-minutes".</param>
/// <param name="Value">What kind of value it takes, as the help shows it. Null: a switch, which may stand alone.</param>
/// <param name="Description">For the help.</param>
internal sealed record Setting(string Name, string? Value, string Description)
{
    private const string VariablePrefix = "MIXENGINE_";

    /// <summary>Secrets are not taken from the command line, which every user of the machine can read.</summary>
    public bool IsSecret { get; init; }

    /// <summary>On the command line: "--idle-minutes".</summary>
    public string Option => "--" + Name;

    /// <summary>In the environment: "MIXENGINE_IDLE_MINUTES".</summary>
    public string Variable => VariablePrefix + Name.Replace('-', '_').ToUpperInvariant();

    /// <summary>Whether a variable of the environment can be meant for MixEngine at all.</summary>
    public static bool IsVariable(string name) => name.StartsWith(VariablePrefix, StringComparison.Ordinal);
}
