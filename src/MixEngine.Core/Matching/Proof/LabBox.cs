using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A box in CIELAB.</summary>
internal readonly record struct LabBox(Interval L, Interval A, Interval B)
{
    /// <summary>
    /// Every colour that a reflectance between 0 and 1 can have under any light: X/Xn, Y/Yn and Z/Zn lie in 0 to 1, so their compressed
    /// values lie in 4/29 to 1. Weights below zero (see <see cref="TristimulusWeights"/>) may step over by a little.
    /// </summary>
    public static LabBox AllSurfaces { get; } = new(new(-1, 101), new(-440, 440), new(-180, 180));

    /// <summary>The box cut in two across the side that is longest to the eye.</summary>
    public (LabBox First, LabBox Second) Halves()
    {
        // Far from neutral an eye sees a step in a* or b* less than one in L*; for cutting a box this does not matter.
        if (L.Width >= A.Width && L.Width >= B.Width)
        {
            return (this with { L = new(L.Low, L.Middle) }, this with { L = new(L.Middle, L.High) });
        }

        return A.Width >= B.Width
            ? (this with { A = new(A.Low, A.Middle) }, this with { A = new(A.Middle, A.High) })
            : (this with { B = new(B.Low, B.Middle) }, this with { B = new(B.Middle, B.High) });
    }

    /// <summary>The longest side.</summary>
    public double Size => Math.Max(L.Width, Math.Max(A.Width, B.Width));

    /// <summary>Distance of the neutral axis from the box, nearest and furthest.</summary>
    public Interval Chroma
    {
        get
        {
            var (a, b) = (A.Mignitude, B.Mignitude);
            var (fa, fb) = (A.Magnitude, B.Magnitude);
            return new(Math.Sqrt(a * a + b * b), Math.Sqrt(fa * fa + fb * fb));
        }
    }
}
