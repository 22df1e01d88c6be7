namespace MixEngine.Core;

/// <summary>What the colour does on the way, apart from the size of its steps. It may be meant.</summary>
public enum RampColorNoteKind
{
    /// <summary>The hue changes family from one step to the next.</summary>
    HueTurn,

    /// <summary>Chroma collapses towards the light, as when lightened with white.</summary>
    Chalk,

    /// <summary>A step much duller than what lies before and after it, as when complements are mixed.</summary>
    Mud,

    /// <summary>A green step between ends that are not green, as when a yellow is darkened with black.</summary>
    Greening,
}

/// <summary>A note on the colour of a step.</summary>
/// <param name="Kind">What happens.</param>
/// <param name="Step">Where, counted from 1 as the ramp was given.</param>
/// <param name="Words">The same in plain words.</param>
public sealed record RampColorNote(RampColorNoteKind Kind, int Step, string Words);
