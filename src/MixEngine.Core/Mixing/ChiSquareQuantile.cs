using MathNet.Numerics.Distributions;

namespace MixEngine.Core;

/// <summary>A quantile of the chi-square distribution for any freedom from 1 to 3, read from a table, because predictions ask for it thousands of times a second.</summary>
/// <remarks>Computed once by MathNet.Numerics at 513 places and read linearly between them: right to 1e-6 of the value.</remarks>
internal sealed class ChiSquareQuantile(double probability)
{
    private const int Steps = 512;

    private readonly double[] _values =
        [.. Enumerable.Range(0, Steps + 1).Select(i => Gamma.InvCDF((1 + 2.0 * i / Steps) / 2, 0.5, probability))];

    /// <summary>What a sum of so many squared normals does not exceed with the probability.</summary>
    /// <param name="freedom">1 to 3; what rounding puts beside that is taken for the end.</param>
    public double At(double freedom)
    {
        var place = Math.Clamp((freedom - 1) / 2, 0, 1) * Steps;
        var below = Math.Min((int)place, Steps - 1);
        return _values[below] + (place - below) * (_values[below + 1] - _values[below]);
    }
}
