using System.Globalization;
using Microsoft.Extensions.Primitives;

namespace MixEngine.Service.Calls;

/// <summary>How long a client gives its call: a duration on the wire, for which no clock need be asked [gRPC over HTTP2, grpc-timeout].</summary>
internal static class ClientTimeout
{
    private const string Header = "grpc-timeout";
    private const int MostDigits = 8;

    /// <summary>As the request says it; null: it says nothing, or nothing that can be read.</summary>
    public static TimeSpan? Of(HttpRequest request) => request.Headers.TryGetValue(Header, out var text) ? Read(text) : null;

    private static TimeSpan? Read(StringValues text)
    {
        var said = text.ToString().AsSpan();
        if (said.Length is < 2 or > MostDigits + 1 || !long.TryParse(said[..^1], NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return null;
        }

        return said[^1] switch
        {
            'H' => TimeSpan.FromHours(number),
            'M' => TimeSpan.FromMinutes(number),
            'S' => TimeSpan.FromSeconds(number),
            'm' => TimeSpan.FromMilliseconds(number),
            'u' => TimeSpan.FromMicroseconds(number),
            'n' => TimeSpan.FromTicks(number / TimeSpan.NanosecondsPerTick),
            _ => null,
        };
    }
}
