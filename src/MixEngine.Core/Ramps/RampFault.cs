namespace MixEngine.Core;

/// <summary>What is wrong between two neighbouring steps of a ramp.</summary>
public enum RampFaultKind
{
    /// <summary>A step so large that it stands out as a band.</summary>
    Band,

    /// <summary>Two steps that an eye hardly tells apart, or that lie much closer than the others.</summary>
    TooClose,

    /// <summary>A step darker than the one before.</summary>
    Darker,

    /// <summary>A step on the wrong place: too near to one neighbour, too far from the other.</summary>
    Misplaced,
}

/// <summary>A fault of a ramp.</summary>
/// <param name="Kind">What is wrong.</param>
/// <param name="Step">The step to change, counted from 1 as the ramp was given; null where a step is missing between two good ones.</param>
/// <param name="From">The darker of the two steps concerned, counted from 1.</param>
/// <param name="To">The lighter.</param>
/// <param name="DeltaE00">Their difference, CIEDE2000.</param>
/// <param name="Words">The same in plain words.</param>
public sealed record RampFault(RampFaultKind Kind, int? Step, int From, int To, double DeltaE00, string Words);
