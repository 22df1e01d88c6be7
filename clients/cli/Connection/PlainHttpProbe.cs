namespace MixEngine.Cli.Connection;

/// <summary>Tells a port that speaks only HTTP/1.1 from one where nobody is: both look alike to a gRPC client.</summary>
internal static class PlainHttpProbe
{
    public static async Task<bool> SpeaksHttp1Async(Uri address, CancellationToken cancel)
    {
        using var client = new HttpClient(new SocketsHttpHandler { UseProxy = false }) { Timeout = TimeSpan.FromSeconds(3) };
        using var request = new HttpRequestMessage(HttpMethod.Get, address)
        {
            Version = System.Net.HttpVersion.Version11,
            VersionPolicy = HttpVersionPolicy.RequestVersionExact,
        };
        try
        {
            using HttpResponseMessage answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancel);
            // A port that speaks only HTTP/2 refuses this request with 400.
            return answer.Version.Major == 1 && answer.StatusCode != System.Net.HttpStatusCode.BadRequest;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException && !cancel.IsCancellationRequested)
        {
            return false;
        }
    }
}
