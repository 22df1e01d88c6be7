namespace MixEngine.Colorimetry;

/// <summary>A 3 by 3 matrix, row by row.</summary>
internal readonly record struct Matrix3(
    double M00, double M01, double M02,
    double M10, double M11, double M12,
    double M20, double M21, double M22)
{
    /// <summary>The product with a column.</summary>
    public (double, double, double) Apply(double x, double y, double z) =>
        (M00 * x + M01 * y + M02 * z,
         M10 * x + M11 * y + M12 * z,
         M20 * x + M21 * y + M22 * z);

    /// <summary>The inverse, by cofactors; the matrix must not be singular.</summary>
    public Matrix3 Inverse()
    {
        var c00 = M11 * M22 - M12 * M21;
        var c01 = M12 * M20 - M10 * M22;
        var c02 = M10 * M21 - M11 * M20;
        var det = M00 * c00 + M01 * c01 + M02 * c02;
        return new Matrix3(
            c00 / det, (M02 * M21 - M01 * M22) / det, (M01 * M12 - M02 * M11) / det,
            c01 / det, (M00 * M22 - M02 * M20) / det, (M02 * M10 - M00 * M12) / det,
            c02 / det, (M01 * M20 - M00 * M21) / det, (M00 * M11 - M01 * M10) / det);
    }

    /// <summary>Each column multiplied by its own factor.</summary>
    public Matrix3 ScaleColumns(double x, double y, double z) =>
        new(M00 * x, M01 * y, M02 * z,
            M10 * x, M11 * y, M12 * z,
            M20 * x, M21 * y, M22 * z);
}
