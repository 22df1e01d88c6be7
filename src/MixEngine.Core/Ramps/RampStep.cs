namespace MixEngine.Core;

/// <summary>One step of a ramp.</summary>
/// <param name="Prediction">Its recipe, colour and expected error.</param>
/// <param name="StepDeltaE00">CIEDE2000 difference from the step before; null at the first.</param>
/// <param name="StepSize">The same in the difference that was asked to be even.</param>
/// <param name="Remarks">What is to be said of this step, in plain words.</param>
public sealed record RampStep(Prediction Prediction, double? StepDeltaE00, double? StepSize, IReadOnlyList<string> Remarks);
