using System.Security.Cryptography;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Calls;

/// <summary>The ids by which requests that change something may be sent again.</summary>
internal static class RequestId
{
    private const string Field = "request_id";
    private const int Longest = 100;

    /// <summary>The request under its id; null where it has none.</summary>
    /// <param name="id">As sent.</param>
    /// <param name="asked">What is asked, without the id.</param>
    /// <exception cref="Refusal">It is no id.</exception>
    public static RepeatableRequest? Of(string id, IMessage asked)
    {
        if (id.Length > Longest || !id.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.'))
        {
            throw new Refusal(StatusCode.InvalidArgument, Field, $"'{Shown.Of(id)}' is no id of a request; write 1 to {Longest} letters, digits, '-', '_' or '.', or leave it out.");
        }

        return id.Length == 0 ? null : new RepeatableRequest(id, SHA256.HashData(asked.ToByteArray()));
    }

    /// <summary>Does what is asked once.</summary>
    /// <exception cref="Refusal">The id was another request's.</exception>
    public static T Once<T>(Func<T> act)
    {
        try
        {
            return act();
        }
        catch (RequestIdTakenException taken)
        {
            throw new Refusal(StatusCode.AlreadyExists, Field, $"{taken.Message} Give each request an id of its own; send the same again only as it was.");
        }
    }
}
