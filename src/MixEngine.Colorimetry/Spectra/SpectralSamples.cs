using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>The checks that every spectrum from outside must pass before it is read.</summary>
internal static class SpectralSamples
{
    /// <summary>Refuses samples that are not one finite value per increasing wavelength, from the given span of wavelengths.</summary>
    /// <param name="what">What the spectrum is, for the message: "the light", "the spectrum".</param>
    /// <param name="wavelengthsNm">Wavelengths in nm.</param>
    /// <param name="values">As many values.</param>
    /// <param name="fromNm">The first wavelength must not lie above this.</param>
    /// <param name="toNm">The last wavelength must not lie below this.</param>
    /// <exception cref="ArgumentException">The message names what is wrong and where.</exception>
    public static void RefuseUnusable(string what, ReadOnlySpan<double> wavelengthsNm, ReadOnlySpan<double> values, double fromNm, double toNm)
    {
        if (wavelengthsNm.Length != values.Length || wavelengthsNm.Length < 2)
        {
            throw new ArgumentException(
                $"There must be one value per wavelength and at least two, but {what} has {wavelengthsNm.Length} wavelengths and {values.Length} values.",
                nameof(values));
        }

        for (var i = 0; i < wavelengthsNm.Length; i++)
        {
            if (!double.IsFinite(wavelengthsNm[i]) || (i > 0 && wavelengthsNm[i] <= wavelengthsNm[i - 1]))
            {
                throw new ArgumentException(
                    $"Wavelength {i + 1} of {what} is {Text(wavelengthsNm[i])} nm, but wavelengths must be numbers that increase.",
                    nameof(wavelengthsNm));
            }

            if (!double.IsFinite(values[i]))
            {
                throw new ArgumentException(
                    $"The value of {what} at {Text(wavelengthsNm[i])} nm is {Text(values[i])}, but it must be a number.",
                    nameof(values));
            }
        }

        if (wavelengthsNm[0] > fromNm || wavelengthsNm[^1] < toNm)
        {
            throw new ArgumentException(
                $"The values of {what} run from {Text(wavelengthsNm[0])} to {Text(wavelengthsNm[^1])} nm, but they must cover at least {Text(fromNm)} to {Text(toNm)} nm.",
                nameof(wavelengthsNm));
        }
    }

    /// <summary>The widest gap between neighbouring wavelengths, in nm.</summary>
    public static double WidestStepNm(ReadOnlySpan<double> wavelengthsNm)
    {
        var widest = 0.0;
        for (var i = 1; i < wavelengthsNm.Length; i++)
        {
            widest = Math.Max(widest, wavelengthsNm[i] - wavelengthsNm[i - 1]);
        }

        return widest;
    }

    /// <summary>A number for a message, the same in every locale.</summary>
    public static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);
}
