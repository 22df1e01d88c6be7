using System.Net.Http.Headers;

namespace MixEngine.Cli.Connection;

/// <summary>The access key for a service that asks for one. It stands in MIXENGINE_KEY: on the command line every user of the machine could read it.</summary>
internal static class AccessKey
{
    private const string Variable = "MIXENGINE_KEY";

    public static string? OfThisUser => Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } key ? key.Trim() : null;

    /// <summary>Sends the key along with each request.</summary>
    /// <exception cref="Refusal">Others could read it on its way.</exception>
    public static HttpMessageHandler Sent(string key, Uri service, HttpMessageHandler handler) =>
        service.Scheme == Uri.UriSchemeHttps || service.IsLoopback
            ? new KeyHandler(key) { InnerHandler = handler }
            : throw new Refusal($"{Variable}: nothing is encrypted on the way to {service.Authority}, and whoever sees the key there can use it. Give --server https://{service.Authority}, or unset {Variable}.");

    private sealed class KeyHandler(string key) : DelegatingHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
            return base.SendAsync(request, cancellationToken);
        }
    }
}
