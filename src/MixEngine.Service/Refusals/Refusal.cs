using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;

namespace MixEngine.Service.Refusals;

/// <summary>A request that cannot be answered as it is, and why. It becomes a google.rpc.Status with field violations.</summary>
public sealed class Refusal(StatusCode code, IReadOnlyList<Violation> violations)
    : Exception(string.Join(" ", violations.Select(violation => $"{violation.Field}: {violation.Description}")))
{
    /// <summary>Refuses because of one field.</summary>
    public Refusal(StatusCode code, string field, string description) : this(code, [new Violation(field, description)])
    {
    }

    /// <summary>The kind of refusal.</summary>
    public StatusCode Code => code;

    /// <summary>What is wrong, field by field.</summary>
    public IReadOnlyList<Violation> Violations => violations;

    /// <summary>The refusal as it is sent.</summary>
    public Google.Rpc.Status ToStatus()
    {
        var details = new BadRequest();
        details.FieldViolations.Add(violations.Select(violation => new BadRequest.Types.FieldViolation
        {
            Field = violation.Field,
            Description = violation.Description,
        }));
        return new Google.Rpc.Status { Code = (int)code, Message = Message, Details = { Any.Pack(details) } };
    }
}
