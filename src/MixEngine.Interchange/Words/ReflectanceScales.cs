namespace MixEngine.Interchange;

internal static class ReflectanceScales
{
    public static readonly Vocabulary<ReflectanceScale> Words = new(
        (ReflectanceScale.Fraction, ["fraction", "0-1", "1", "1.0", "decimal", "factor"]),
        (ReflectanceScale.Percent, ["percent", "%", "0-100", "100", "100.0", "pct"]));
}
