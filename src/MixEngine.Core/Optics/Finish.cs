namespace MixEngine.Core;

/// <summary>How the dried surface scatters the first reflection. The pigment film beneath is the same.</summary>
public enum Finish
{
    /// <summary>The reflection is spread all over: it lifts and greys darks.</summary>
    Matt,

    /// <summary>Between the two.</summary>
    Satin,

    /// <summary>The reflection leaves as a highlight: darks deepen, colours saturate.</summary>
    Gloss,
}

/// <summary>The surface term of each finish.</summary>
public static class FinishSurface
{
    /// <summary>
    /// Share e of the first-surface reflection seen away from the highlight: gloss 0, satin 0.5, matt 1.
    /// The ends are the limits of [Saunderson1942]; satin in the middle is common practice, no source.
    /// </summary>
    public static SurfaceReflection Surface(this Finish finish) => new(finish switch
    {
        Finish.Matt => 1,
        Finish.Satin => 0.5,
        Finish.Gloss => 0,
        _ => throw new ArgumentOutOfRangeException(nameof(finish), finish, "Matt, satin or gloss."),
    });
}
