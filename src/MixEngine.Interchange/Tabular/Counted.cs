namespace MixEngine.Interchange;

/// <summary>"1 paint", "2 paints".</summary>
internal static class Counted
{
    public static string Of(int count, string one, string many) => $"{count} {(count == 1 ? one : many)}";
}
