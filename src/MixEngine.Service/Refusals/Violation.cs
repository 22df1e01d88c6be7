namespace MixEngine.Service.Refusals;

/// <summary>What is wrong with one field of a request.</summary>
/// <param name="Field">Path of the field, as the contract names it: "recipe.parts[1].parts".</param>
/// <param name="Description">The value, what was expected, and what to do, in plain words.</param>
public sealed record Violation(string Field, string Description);
