using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The lights under which figures are painted and shown.</summary>
public static class Lamps
{
    /// <summary>
    /// Daylight (D65), an incandescent bulb (A), a white LED of 4000 K (LED-B3) and a three-band tube (FL11).
    /// The choice is common practice, no source; the lights are those of [CIE15].
    /// </summary>
    public static IReadOnlyList<Illuminant> Usual { get; } = [Illuminant.D65, Illuminant.A, Illuminant.FromName("LED-B3"), Illuminant.FL11];
}
