using System.Numerics;

namespace MixEngine.Core;

/// <summary>
/// The lower triangle L of a symmetric positive definite A = L·Lᵀ (Cholesky), and the two half solves with it.
/// </summary>
/// <remarks>
/// For systems of some ten to a hundred unknowns that are met by the ten thousand. MathNet solves A·x = b in one go; whitening an
/// error (L⁻¹·r) and drawing one (L⁻ᵀ·z) need the halves.
/// </remarks>
internal sealed class LowerTriangle
{
    private readonly double[] _l;

    private LowerTriangle(double[] l, int size) => (_l, Size) = (l, size);

    /// <summary>Number of unknowns.</summary>
    public int Size { get; }

    /// <summary>Factors a matrix given row by row; only its lower triangle is read, and it is overwritten.</summary>
    /// <exception cref="ArgumentException">Not positive definite.</exception>
    public static LowerTriangle Factor(double[] a, int size)
    {
        for (var i = 0; i < size; i++)
        {
            var row = a.AsSpan(i * size, size);
            for (var j = 0; j <= i; j++)
            {
                var rest = row[j] - Dot(row[..j], a.AsSpan(j * size, j));
                if (i != j)
                {
                    row[j] = rest / a[j * size + j];
                }
                else if (rest > 0)
                {
                    row[j] = Math.Sqrt(rest);
                }
                else
                {
                    throw new ArgumentException($"The matrix is not positive definite at row {i}.", nameof(a));
                }
            }

            row[(i + 1)..].Clear();
        }

        return new LowerTriangle(a, size);
    }

    /// <summary>Replaces b by L⁻¹·b.</summary>
    public void SolveForward(Span<double> b)
    {
        for (var i = 0; i < Size; i++)
        {
            b[i] = (b[i] - Dot(_l.AsSpan(i * Size, i), b[..i])) / _l[i * Size + i];
        }
    }

    /// <summary>Replaces b by L⁻ᵀ·b.</summary>
    public void SolveBackward(Span<double> b)
    {
        for (var i = Size - 1; i >= 0; i--)
        {
            b[i] /= _l[i * Size + i];
            AddScaled(-b[i], _l.AsSpan(i * Size, i), b[..i]);
        }
    }

    /// <summary>L·z.</summary>
    public void Multiply(ReadOnlySpan<double> z, Span<double> result)
    {
        for (var i = 0; i < Size; i++)
        {
            result[i] = Dot(_l.AsSpan(i * Size, i + 1), z[..(i + 1)]);
        }
    }

    /// <summary>A⁻¹, row by row.</summary>
    public double[] Inverse()
    {
        var inverse = new double[Size * Size];
        for (var i = 0; i < Size; i++)
        {
            var row = inverse.AsSpan(i * Size, Size);
            row[i] = 1;
            SolveForward(row);
            SolveBackward(row);
        }

        return inverse;
    }

    /// <summary>Σ aᵢbᵢ.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var sum = Vector<double>.Zero;
        var i = 0;
        for (; i <= a.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            sum += new Vector<double>(a[i..]) * new Vector<double>(b[i..]);
        }

        var total = Vector.Sum(sum);
        for (; i < a.Length; i++)
        {
            total += a[i] * b[i];
        }

        return total;
    }

    /// <summary>Adds by·a to b.</summary>
    public static void AddScaled(double by, ReadOnlySpan<double> a, Span<double> b)
    {
        var factor = new Vector<double>(by);
        var i = 0;
        for (; i <= a.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            (new Vector<double>(b[i..]) + factor * new Vector<double>(a[i..])).CopyTo(b[i..]);
        }

        for (; i < a.Length; i++)
        {
            b[i] += by * a[i];
        }
    }
}
