using System.Globalization;
using System.Security.Cryptography;
using Grpc.Core;
using Microsoft.AspNetCore.Authorization;
using MixEngine.Service.Refusals;
using MixEngine.Service.Telemetry;
using MixEngine.Storage;

namespace MixEngine.Service.Access;

/// <summary>Finds out who asks, by the access key in "authorization: Bearer KEY", and refuses who may not.</summary>
internal sealed class AccessCheck(AccessKeyStore keys, TimeProvider clock, ILogger<AccessCheck> logger)
{
    private const string Scheme = "Bearer ";
    private static readonly byte[] NobodysHash = new byte[SHA256.HashSizeInBytes];

    private readonly WrongKeys _wrong = new(keys, clock);

    /// <summary>Answers a request whose caller may ask it.</summary>
    public Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        // Health, and the pages of the add-in, hold nobody's data; and at home nobody needs a key.
        var given = context.Request.Headers.Authorization.ToString();
        var isOpen = (given.Length == 0 && context.Features.Get<KeyRequired>() is null) || context.GetEndpoint()?.Metadata.GetMetadata<IAllowAnonymous>() is not null;
        return isOpen ? next(context) : CheckAsync(context, next, given);
    }

    private async Task CheckAsync(HttpContext context, RequestDelegate next, string given)
    {
        var (from, shown) = (context.Connection.RemoteIpAddress, Read(given));
        if (given.Length > 0 && _wrong.WaitOf(from, shown) is { } wait)
        {
            await CallRate.RefuseAsync(context, wait, string.Create(
                CultureInfo.InvariantCulture, $"{WrongKeys.Most} wrong access keys came from your address within a minute, and this is no key that holds. One that holds is answered at any time (one made this moment, a moment later); show another after {wait.TotalSeconds:0.###} s."));
            return;
        }

        if (Find(shown) is not { } key)
        {
            if (given.Length > 0 && _wrong.Count(from))
            {
                Log.WrongKeys(logger, WrongKeys.Most, from!);
            }

            // Whether there is such a key, was one or never was is nobody's business.
            await RefuseAsync(context, given.Length == 0
                ? "An access key is needed here. Send it as \"authorization: Bearer KEY\"; whoever runs this service makes keys."
                : "This is no access key that holds. Send one as \"authorization: Bearer KEY\"; whoever runs this service makes keys.");
            return;
        }

        if (key.HasExpired(clock.GetUtcNow()))
        {
            // Only who has the whole key is told.
            await RefuseAsync(context, string.Create(
                CultureInfo.InvariantCulture, $"This access key expired on {key.Expires:u}. Send a new one as \"authorization: Bearer KEY\"; whoever runs this service makes it: mixengine key create --owner {key.Owner.Name}."));
            return;
        }

        (CallRecord.Of(context) ?? CallRecord.Begin(context)).Caller = new Caller(key.Owner, key.Scope, key.Id);
        var needed = NeededScope.Of(context);
        if (key.Scope < needed)
        {
            var words = $"This key may {Word(key.Scope)}, and this needs a key that may {Word(needed)}. Whoever runs this service makes keys.";
            await RefusedRequest.AnswerAsync(context, StatusCodes.Status403Forbidden, new Refusal(StatusCode.PermissionDenied, "authorization", words).ToStatus());
            return;
        }

        await next(context);
    }

    private static async Task RefuseAsync(HttpContext context, string words)
    {
        context.Response.Headers.WWWAuthenticate = "Bearer";
        await RefusedRequest.AnswerAsync(context, StatusCodes.Status401Unauthorized, new Refusal(StatusCode.Unauthenticated, "authorization", words).ToStatus());
    }

    private static KeyText? Read(string given) => given.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase) ? KeyText.Read(given[Scheme.Length..].Trim()) : null;

    private AccessKey? Find(KeyText? shown)
    {
        if (shown is not { } text)
        {
            return null;
        }

        // The same work whether there is such an id or not, and a comparison that takes as long wherever they differ.
        var found = keys.Find(text.Id);
        var same = CryptographicOperations.FixedTimeEquals(text.Hash(), found?.Hash ?? NobodysHash);
        return same && found is { Key.Revoked: null } ? found.Value.Key : null;
    }

    private static string Word(Scope scope) => scope.ToString().ToLowerInvariant();
}
