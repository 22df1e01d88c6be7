namespace MixEngine.Colorimetry;

/// <summary>Gaussian elimination with partial pivoting, for the few dozen equations of the reconstruction.</summary>
internal static class LinearSystem
{
    /// <summary>Solves A x = b in place; the answer replaces <paramref name="b"/>.</summary>
    /// <param name="a">n rows of n values; destroyed.</param>
    /// <param name="b">Right-hand side, n values.</param>
    /// <returns>False when the matrix is singular.</returns>
    public static bool Solve(Span<double> a, Span<double> b)
    {
        var n = b.Length;
        for (var column = 0; column < n; column++)
        {
            // Bring the largest element of the column to the diagonal.
            var pivot = column;
            for (var row = column + 1; row < n; row++)
            {
                if (Math.Abs(a[row * n + column]) > Math.Abs(a[pivot * n + column]))
                {
                    pivot = row;
                }
            }

            // Written so that NaN fails too.
            if (!(Math.Abs(a[pivot * n + column]) > 1e-300))
            {
                return false;
            }

            if (pivot != column)
            {
                for (var k = column; k < n; k++)
                {
                    (a[column * n + k], a[pivot * n + k]) = (a[pivot * n + k], a[column * n + k]);
                }

                (b[column], b[pivot]) = (b[pivot], b[column]);
            }

            // Clear the column below it.
            for (var row = column + 1; row < n; row++)
            {
                var factor = a[row * n + column] / a[column * n + column];
                if (factor == 0)
                {
                    continue;
                }

                for (var k = column + 1; k < n; k++)
                {
                    a[row * n + k] -= factor * a[column * n + k];
                }

                b[row] -= factor * b[column];
            }
        }

        // Substitute back.
        for (var row = n - 1; row >= 0; row--)
        {
            for (var k = row + 1; k < n; k++)
            {
                b[row] -= a[row * n + k] * b[k];
            }

            b[row] /= a[row * n + row];
        }

        return true;
    }
}
