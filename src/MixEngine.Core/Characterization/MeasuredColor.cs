using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What was read off a dry sample: a spectrum, or a colour under one light.</summary>
public sealed class MeasuredColor
{
    private readonly Lab _lab;

    private MeasuredColor(Reflectance? spectrum, int firstNm, int lastNm, Lab lab, ViewingCondition? condition) =>
        (Spectrum, FirstNm, LastNm, _lab, Condition) = (spectrum, firstNm, lastNm, lab, condition);

    /// <summary>The spectrum, where one was read.</summary>
    public Reflectance? Spectrum { get; }

    /// <summary>First band that was really read, nm; those before it were filled in and carry no weight.</summary>
    public int FirstNm { get; }

    /// <summary>Last band that was really read, nm.</summary>
    public int LastNm { get; }

    /// <summary>Light and eye of a colour that came without a spectrum.</summary>
    public ViewingCondition? Condition { get; }

    /// <summary>A spectrum.</summary>
    /// <param name="spectrum">Reflectance factor on the engine's grid.</param>
    /// <param name="firstNm">First band that was really read, nm.</param>
    /// <param name="lastNm">Last band that was really read, nm.</param>
    /// <exception cref="ArgumentException">Fewer than ten bands were read: less than a colour says.</exception>
    public static MeasuredColor Of(Reflectance spectrum, int firstNm = SpectralGrid.FirstNm, int lastNm = SpectralGrid.LastNm)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        if (lastNm - firstNm < 9 * SpectralGrid.StepNm)
        {
            throw new ArgumentException($"A spectrum from {firstNm} to {lastNm} nm is too short to tell a colour; read at least {9 * SpectralGrid.StepNm} nm of it.", nameof(lastNm));
        }

        return new MeasuredColor(spectrum, Math.Max(firstNm, SpectralGrid.FirstNm), Math.Min(lastNm, SpectralGrid.LastNm), default, null);
    }

    /// <summary>A colour.</summary>
    /// <exception cref="ArgumentException">Not made of numbers, or L outside 0 to 100.</exception>
    public static MeasuredColor Of(Lab lab, ViewingCondition condition)
    {
        ArgumentNullException.ThrowIfNull(condition);
        if (!double.IsFinite(lab.A) || !double.IsFinite(lab.B) || !(lab.L is >= 0 and <= 100))
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{lab} is not the colour of a surface: L lies from 0 to 100, a and b are numbers."), nameof(lab));
        }

        return new MeasuredColor(null, SpectralGrid.FirstNm, SpectralGrid.LastNm, lab, condition);
    }

    /// <summary>The colour, under the light it was read for or, of a spectrum, under any.</summary>
    public Lab LabUnder(ViewingCondition condition)
    {
        if (Spectrum is null)
        {
            return _lab;
        }

        var weights = TristimulusWeights.For(condition);
        return Lab.FromXyz(weights.ToXyz(Spectrum), weights.White);
    }

    /// <summary>The spectrum, or the smoothest one that has the colour [Burns2020].</summary>
    public Reflectance Reflectance() => Spectrum ?? Smoothest();

    /// <summary>The smoothest reflectance that has the colour, even where the spectrum is known.</summary>
    public Reflectance Smoothest()
    {
        var condition = Condition ?? ViewingCondition.D65Degree10;
        return ReflectanceFromColor.Reconstruct(LabUnder(condition).ToXyz(TristimulusWeights.For(condition).White), condition).Reflectance;
    }
}
