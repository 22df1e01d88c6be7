using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>Audited ramps as answered.</summary>
internal static class RampAuditMapping
{
    public static V1.AuditRampResponse Write(RampAudit audit, V1.View? view) => new()
    {
        Steps = { audit.Steps.Zip(audit.Numbers, (step, number) => new V1.AuditedStep { Number = number, Step = RampMapping.Write(step, view) }) },
        Faults = { audit.Faults.Select(Write) },
        Notes = { audit.Notes.Select(note => new V1.RampColorNote { Kind = Words.RampColorNote.For(note.Kind), Step = note.Step, Words = note.Words }) },
        Mending = audit.Mending is { } mending ? Write(mending) : null,
        LargestDeltaE00 = audit.Steps.Max(step => step.StepDeltaE00 ?? 0),
        SmallestDeltaE00 = audit.Steps.Min(step => step.StepDeltaE00 ?? double.PositiveInfinity),
        Unevenness = audit.Unevenness,
        Remarks = { audit.Remarks },
    };

    private static V1.RampFault Write(RampFault fault)
    {
        var message = new V1.RampFault
        {
            Kind = Words.RampFault.For(fault.Kind),
            FromStep = fault.From,
            ToStep = fault.To,
            DeltaE00 = fault.DeltaE00,
            Words = fault.Words,
        };
        if (fault.Step is { } step)
        {
            message.Step = step;
        }

        return message;
    }

    private static V1.RampMending Write(RampMending mending) => new()
    {
        Changes =
        {
            mending.Changes.Select(change => new V1.RampChange
            {
                Step = change.Step,
                From = RecipeMapping.Write(change.From),
                To = RecipeMapping.Write(change.To),
                DropsChanged = change.Drops,
            }),
        },
        DropsChanged = mending.Drops,
        Steps = { mending.Steps.Select(RecipeMapping.Write) },
        StepDeltaE00 = { mending.StepsDeltaE00 },
        FaultsLeft = mending.FaultsLeft,
        Alternatives = { mending.Alternatives },
    };
}
