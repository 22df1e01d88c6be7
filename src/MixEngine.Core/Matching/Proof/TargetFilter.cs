using MathNet.Numerics.LinearAlgebra;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// What is asked of a mixture under one light before it is looked at exactly: three weighted sums over its bands, which near the target
/// stand for lightness, chroma and hue, must lie where the target's neighbourhood allows.
/// </summary>
/// <remarks>
/// A sum over the bands is linear in the reflectance, so the least and the most of each band bound it for whole groups of mixtures.
/// The directions separate far better than X, Y and Z would: they are those in which a neighbourhood is small.
/// </remarks>
internal sealed class TargetFilter
{
    /// <summary>Numbers to a row: three weights, then their positive parts, then their negative parts.</summary>
    public const int Weights = 9;

    // Between the three directions, two and three at a time: together they come close to the rounded shape of a neighbourhood.
    private static readonly float[][] Between =
    [
        [1, 1, 0], [1, -1, 0], [1, 0, 1], [1, 0, -1], [0, 1, 1], [0, 1, -1],
        [1, 1, 1], [1, 1, -1], [1, -1, 1], [1, -1, -1],
    ];

    private readonly ObjectiveLight _light;
    private readonly double[][] _directions;
    private readonly AlignedFloats _weights;
    private readonly double _common;
    private readonly double _doubt;

    public TargetFilter(ObjectiveLight light, PaintBlocks blocks, PaintSurfaces surfaces)
    {
        _light = light;
        Rows = blocks.Rows;
        _directions = Directions(light.Aim, light.Weights.White);
        (_common, _doubt) = (surfaces.Differ ? 0 : surfaces.Common, surfaces.Doubt);

        // The lanes compute R'/c with c = (1-k1)(1-k2); the surface row carries the collected share itself.
        _weights = new(blocks.Rows * Weights);
        const double scale = (1 - SurfaceReflection.External) * (1 - SurfaceReflection.Internal);
        for (var row = 0; row < blocks.Rows; row++)
        {
            for (var i = 0; i < 3; i++)
            {
                var weight = row < SpectralGrid.Bands
                    ? scale * Along(i, new(light.Weights.X[row], light.Weights.Y[row], light.Weights.Z[row]))
                    : SurfaceReflection.External * Along(i, light.Weights.White);
                var at = _weights.Span[(row * Weights)..];
                at[i] = (float)weight;
                at[3 + i] = (float)Math.Max(0, weight);
                at[6 + i] = (float)Math.Min(0, weight);
            }
        }
    }

    /// <summary>Bands, and one more where surfaces differ.</summary>
    public int Rows { get; }

    /// <summary>The weights, row after row.</summary>
    public ref float WeightsOf(int row) => ref _weights.At(row * Weights);

    /// <summary>How many sums of the three sums are asked as well; each costs next to nothing once the three are known.</summary>
    public static int Mixed => Between.Length;

    /// <summary>The factors of one of them.</summary>
    public static float[] MixedOf(int i) => Between[i];

    /// <summary>
    /// Where the three sums of a mixture within a radius must lie, and those mixed of them: least and most of each, one after the other.
    /// </summary>
    /// <param name="neighbourhood">The colours within the radius.</param>
    /// <param name="precision">Relative error of a band as the lanes compute it.</param>
    public float[] Limits(Neighbourhood neighbourhood, double precision)
    {
        var white = _light.Weights.White;
        var limits = new float[2 * (3 + Mixed)];
        if (neighbourhood.Boxes.Count == 0)
        {
            // Nothing is near: no sum may pass.
            for (var i = 0; i < limits.Length; i += 2)
            {
                (limits[i], limits[i + 1]) = (float.MaxValue, float.MinValue);
            }

            return limits;
        }

        // The lanes err by the precision times what each band brings, and that is at most X, Y and Z of the neighbourhood (and twice what
        // the few negative weights can hide): the least and the most of a group err by no more on the mixture's side of it. Each sum is
        // rounded twice a row, by 2^-24 of what is added up so far, which is at most what a perfect white brings.
        var bright = new Xyz(
            neighbourhood.Reach(1, 0, 0, white).High + Hidden(_light.Weights.X),
            neighbourhood.Reach(0, 1, 0, white).High + Hidden(_light.Weights.Y),
            neighbourhood.Reach(0, 0, 1, white).High + Hidden(_light.Weights.Z));
        Span<double> slack = stackalloc double[3];
        for (var i = 0; i < 3; i++)
        {
            var size = Math.Abs(_directions[i][0]) * bright.X + Math.Abs(_directions[i][1]) * bright.Y + Math.Abs(_directions[i][2]) * bright.Z;
            var all = Math.Abs(_directions[i][0]) * (white.X + Hidden(_light.Weights.X)) + Math.Abs(_directions[i][1]) * (white.Y + Hidden(_light.Weights.Y)) + Math.Abs(_directions[i][2]) * (white.Z + Hidden(_light.Weights.Z));
            slack[i] = precision * size + 5e-6 * all + Math.Abs(SurfaceReflection.External * Along(i, white)) * _doubt + 1e-6;
        }

        for (var i = 0; i < 3 + Mixed; i++)
        {
            // The direction, and what the surface common to all mixtures adds along it.
            float[] factors = i < 3 ? [i == 0 ? 1 : 0, i == 1 ? 1 : 0, i == 2 ? 1 : 0] : Between[i - 3];
            var (x, y, z, surface, give) = (0.0, 0.0, 0.0, 0.0, 0.0);
            for (var j = 0; j < 3; j++)
            {
                x += factors[j] * _directions[j][0];
                y += factors[j] * _directions[j][1];
                z += factors[j] * _directions[j][2];
                surface += factors[j] * _common * SurfaceReflection.External * Along(j, white);
                give += Math.Abs(factors[j]) * slack[j];
            }

            var reach = neighbourhood.Reach(x, y, z, white);
            limits[2 * i] = (float)(reach.Low - surface - give);
            limits[2 * i + 1] = (float)(reach.High - surface + give);
        }

        return limits;
    }

    private double Along(int i, Xyz xyz) => _directions[i][0] * xyz.X + _directions[i][1] * xyz.Y + _directions[i][2] * xyz.Z;

    private static double Hidden(ReadOnlySpan<double> weights)
    {
        var sum = 0.0;
        foreach (var weight in weights)
        {
            sum += 2 * Math.Max(0, -weight);
        }

        return sum;
    }

    // The rows of the inverse of d(X, Y, Z)/d(L*, C*, h), in units of CIEDE2000: each answers to one of the three alone, near the target.
    private static double[][] Directions(Lab aim, Xyz white)
    {
        var (a, b) = aim.Chroma > 1 ? (aim.A / aim.Chroma, aim.B / aim.Chroma) : (1.0, 0.0);
        const double step = 1e-3;
        (double L, double A, double B)[] moves = [(step, 0, 0), (0, step * a, step * b), (0, -step * b, step * a)];
        var here = aim.ToXyz(white);
        var jacobian = Matrix<double>.Build.Dense(3, 3, (row, column) =>
        {
            var there = Moved(moves[column]).ToXyz(white);
            return (row switch { 0 => there.X - here.X, 1 => there.Y - here.Y, _ => there.Z - here.Z }) / DeltaE2000.Between(aim, Moved(moves[column]));
        });
        var inverse = jacobian.Inverse();
        return [.. Enumerable.Range(0, 3).Select(row => inverse.Row(row).ToArray())];

        Lab Moved((double L, double A, double B) move) => new(aim.L + move.L, aim.A + move.A, aim.B + move.B);
    }
}
