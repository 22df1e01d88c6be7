using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How a match holds under lamps: what differs there, and how much of that is metamerism.</summary>
/// <param name="Lamp">Light and eye.</param>
/// <param name="DeltaE00">Difference from the target under it, CIEDE2000.</param>
/// <param name="MetamerismIndex">The part that only the change of lamp brings (special metamerism index); 0 for the lamp of the match.</param>
public sealed record LampMatch(ViewingCondition Lamp, double DeltaE00, double MetamerismIndex)
{
    /// <summary>A match under several lamps, in their order.</summary>
    /// <param name="target">What was to be matched.</param>
    /// <param name="matched">What leaves the surface of the match.</param>
    /// <param name="usual">The light and eye of the match.</param>
    /// <param name="lamps">The lamps.</param>
    public static IReadOnlyList<LampMatch> Of(MatchTarget target, Reflectance matched, ViewingCondition usual, IEnumerable<Illuminant> lamps) =>
    [
        .. lamps.Select(lamp =>
        {
            var there = usual with { Illuminant = lamp };
            return new LampMatch(
                there,
                DeltaE2000.Between(target.Under(there), Appearance.Of(matched, there).Lab),
                Colorimetry.MetamerismIndex.Of(target.Reflectance, matched, usual, there));
        }),
    ];
}
