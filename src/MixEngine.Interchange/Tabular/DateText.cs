using System.Globalization;

namespace MixEngine.Interchange;

/// <summary>Dates as year, month, day [ISO8601]: the one order that no country reads otherwise.</summary>
internal static class DateText
{
    public static string Write(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Reads "2024-05-03" and "2024/05/03", with a time of day behind it or not.</summary>
    public static DateOnly? TryRead(string text)
    {
        bool timed = text.Length > 10 && text[10] is 'T' or ' ' && !text.AsSpan(10).ContainsAnyExcept("T 0123456789:.,+-Z");
        string day = timed ? text[..10] : text;
        return DateOnly.TryParseExact(day, ["yyyy-MM-dd", "yyyy/MM/dd"], CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date) ? date : null;
    }
}
