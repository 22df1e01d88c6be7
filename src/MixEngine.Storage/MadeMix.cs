namespace MixEngine.Storage;

/// <summary>A mix that was really made.</summary>
/// <param name="Key">Its number; 0 until it is kept.</param>
/// <param name="Made">When, as written: RFC 3339.</param>
/// <param name="Run">The scheme run that it was made for; null: for none.</param>
/// <param name="Pot">The pot of that run; null: none.</param>
/// <param name="Parts">The bottles at work.</param>
/// <param name="Swatch">The dried swatch afterwards; null: not measured.</param>
/// <param name="Notes">The painter's notes; null: none.</param>
public sealed record MadeMix(long Key, string Made, long? Run, int? Pot, IReadOnlyList<MadePart> Parts, StoredColor? Swatch, string? Notes);

/// <summary>Drops from one bottle.</summary>
/// <param name="Paint">The paint as its owner calls it.</param>
/// <param name="Drops">Above 0.</param>
/// <param name="Batch">What is printed on the bottle; null: not noted.</param>
public sealed record MadePart(string Paint, double Drops, string? Batch);
