using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;

namespace MixEngine.Service.Refusals;

/// <summary>A request that cannot be answered as it is, and why. It becomes a google.rpc.Status with field violations.</summary>
public sealed class Refusal(StatusCode code, IReadOnlyList<Violation> violations) : Exception(Told(violations))
{
    // A status travels in the trailers of a call, of which common clients take no more than 8 KiB:
    // details as base64, the message with three letters for each byte beyond plain ASCII.
    private const int MostDetailBytes = 3200;
    private const int MostMessageBytes = 1200;
    private const int MostTold = 3;

    /// <summary>Refuses because of one field.</summary>
    public Refusal(StatusCode code, string field, string description) : this(code, [new Violation(field, description)])
    {
    }

    /// <summary>The kind of refusal.</summary>
    public StatusCode Code => code;

    /// <summary>The refusal as it is sent: the first violations in its message, as many as fit in its details.</summary>
    public Google.Rpc.Status ToStatus()
    {
        var details = new BadRequest();
        foreach (var violation in violations)
        {
            details.FieldViolations.Add(Detail(violation.Field, violation.Description));
            if (details.CalculateSize() > MostDetailBytes)
            {
                details.FieldViolations.RemoveAt(details.FieldViolations.Count - 1);
                details.FieldViolations.Add(Detail(violation.Field, $"{violations.Count - details.FieldViolations.Count} more faults are not listed."));
                break;
            }
        }

        return new Google.Rpc.Status { Code = (int)code, Message = Message, Details = { Any.Pack(details) } };
    }

    private static BadRequest.Types.FieldViolation Detail(string field, string description) => new() { Field = field, Description = description };

    private static string Told(IReadOnlyList<Violation> violations)
    {
        var told = string.Join(" ", violations.Take(MostTold).Select(violation => $"{violation.Field}: {violation.Description}"))
            + (violations.Count > MostTold ? $" And {violations.Count - MostTold} more." : "");
        var (end, bytes) = (0, 0);
        foreach (var rune in told.EnumerateRunes())
        {
            bytes += rune.IsAscii ? 1 : 3 * rune.Utf8SequenceLength;
            if (bytes > MostMessageBytes)
            {
                return told[..end] + "...";
            }

            end += rune.Utf16SequenceLength;
        }

        return told;
    }
}
