namespace MixEngine.Storage;

/// <summary>Why a database did not do what it was asked to. Nothing of the request was stored by halves.</summary>
/// <param name="Words">What is wrong and what to do, in plain words, without paths, names or values.</param>
/// <param name="Passes">Whether the same may succeed in a moment.</param>
public sealed record DatabaseTrouble(string Words, bool Passes);
