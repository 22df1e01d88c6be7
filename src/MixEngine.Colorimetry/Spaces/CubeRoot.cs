using System.Runtime.Intrinsics;

namespace MixEngine.Colorimetry;

/// <summary>Cube roots, four side by side, with the same digits on every machine.</summary>
internal static class CubeRoot
{
    // Adds two thirds of the exponent's bias, less what makes the largest error of the first guess smallest.
    private const ulong Bias = 715_094_163;

    /// <summary>The cube roots of positive normal numbers, within one unit in the last place; nothing of use for others.</summary>
    public static Vector256<double> Of(Vector256<double> x)
    {
        // A third of the exponent and of the leading digits is right within 6 %.
        var third = Vector256.ConvertToDouble(x.AsUInt64() >> 32) * (1.0 / 3);
        var t = ((Vector256.ConvertToUInt64(third) + Vector256.Create(Bias)) << 32).AsDouble();

        // Each step of Halley's method cubes the error, by two thirds at most: 2e-4, 3e-12, 1e-34. Written as a correction, so that a root reached stays.
        for (var step = 0; step < 3; step++)
        {
            var cube = t * t * t;
            t += t * ((x - cube) / (cube + cube + x));
        }

        return t;
    }
}
