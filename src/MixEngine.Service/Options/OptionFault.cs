namespace MixEngine.Service.Options;

/// <summary>What is wrong with an option.</summary>
/// <param name="Setting">The setting's name: "idle-minutes".</param>
/// <param name="Words">The value, what was expected, and what to do, in plain words.</param>
public sealed record OptionFault(string Setting, string Words);
