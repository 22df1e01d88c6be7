namespace MixEngine.Core;

/// <summary>One more layer between two: the mixture of both that lies halfway to the eye.</summary>
/// <param name="Prediction">Its recipe, colour and expected error.</param>
/// <param name="FromDarkerDeltaE00">Difference from the darker of the two, CIEDE2000.</param>
/// <param name="ToLighterDeltaE00">Difference from the lighter.</param>
public sealed record InBetween(Prediction Prediction, double FromDarkerDeltaE00, double ToLighterDeltaE00)
{
    /// <summary>The layer between two recipes; null where no mixture of them, in at most so many drops, is between them in lightness.</summary>
    public static InBetween? Of(Recipe one, Recipe other, View view, RampOptions options, CancellationToken cancellation = default)
    {
        if (RampLeg.AreSame(one, other))
        {
            return null;
        }

        var ramp = EvenRamp.Through([one, other], view, new RampOptions { Steps = 3, Drops = options.Drops, Difference = options.Difference, EndsArePainted = true }, cancellation);
        return ramp.Steps.Count < 3 ? null : new InBetween(ramp.Steps[1].Prediction, ramp.Steps[1].StepDeltaE00!.Value, ramp.Steps[2].StepDeltaE00!.Value);
    }
}
