using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>What an eye with a colour-vision deficiency sees, shown to one without [Machado2009].</summary>
/// <remarks>
/// The published matrices act on linear RGB; here on linear sRGB after adaptation to D65. Between their severities (every 0.1) they are read along straight lines.
/// A simulation for the average of such eyes, not for one person's.
/// </remarks>
public sealed class ColorVision
{
    private static readonly Dictionary<ColorVisionKind, Matrix3[]> Published = Load();

    private readonly Matrix3 _matrix;

    /// <summary>Takes the kind and how far it goes.</summary>
    /// <param name="kind">Which cones.</param>
    /// <param name="severity">0 (as most see) to 1 (the cones are missing).</param>
    /// <exception cref="ArgumentOutOfRangeException">The severity is not from 0 to 1, or there is no such kind.</exception>
    public ColorVision(ColorVisionKind kind, double severity = 1)
    {
        if (!(severity is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(severity), severity, "The severity of a colour-vision deficiency is from 0 to 1.");
        }

        if (!Published.TryGetValue(kind, out var matrices))
        {
            throw new ArgumentOutOfRangeException(nameof(kind), kind, "Protan, deutan or tritan.");
        }

        (Kind, Severity) = (kind, severity);
        var place = severity * (matrices.Length - 1);
        var below = Math.Min((int)place, matrices.Length - 2);
        _matrix = Mix(matrices[below], matrices[below + 1], place - below);
    }

    /// <summary>Which cones.</summary>
    public ColorVisionKind Kind { get; }

    /// <summary>0 to 1.</summary>
    public double Severity { get; }

    /// <summary>For example "deutan" or "deutan 0.6".</summary>
    public string Name => Severity == 1 ? Kind.ToString().ToLowerInvariant() : string.Create(CultureInfo.InvariantCulture, $"{Kind.ToString().ToLowerInvariant()} {Severity:0.##}");

    /// <summary>The colour that looks to most eyes as this one does to such an eye.</summary>
    public LinearSrgb Simulate(LinearSrgb color)
    {
        var (r, g, b) = _matrix.Apply(color.R, color.G, color.B);
        return new LinearSrgb(r, g, b);
    }

    /// <summary>The same for tristimulus values under any light: adapted to D65 by CAT16 and back.</summary>
    /// <param name="xyz">The colour.</param>
    /// <param name="white">The white of its light and observer.</param>
    public Xyz Simulate(Xyz xyz, Xyz white)
    {
        var screenWhite = TristimulusWeights.For(ViewingCondition.Default).White;
        var seen = Simulate(LinearSrgb.FromXyz(ChromaticAdaptation.Cat16.Adapt(xyz, white, screenWhite), screenWhite));
        return ChromaticAdaptation.Cat16.Adapt(seen.ToXyz(screenWhite), screenWhite, white);
    }

    /// <summary>The name.</summary>
    public override string ToString() => Name;

    private static Matrix3 Mix(Matrix3 a, Matrix3 b, double t)
    {
        double Between(double x, double y) => x + t * (y - x);
        return new Matrix3(
            Between(a.M00, b.M00), Between(a.M01, b.M01), Between(a.M02, b.M02),
            Between(a.M10, b.M10), Between(a.M11, b.M11), Between(a.M12, b.M12),
            Between(a.M20, b.M20), Between(a.M21, b.M21), Between(a.M22, b.M22));
    }

    private static Dictionary<ColorVisionKind, Matrix3[]> Load()
    {
        using var stream = typeof(ColorVision).Assembly.GetManifestResourceStream("MixEngine.Colorimetry.Tables.machado2009-color-vision.csv")
            ?? throw new InvalidOperationException("The table of colour vision is missing from the assembly.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd()
            .Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(line => !line.StartsWith('#'))
            .Skip(1)
            .Select(line => line.Split(','))
            .GroupBy(cells => Enum.Parse<ColorVisionKind>(cells[0], ignoreCase: true))
            .ToDictionary(rows => rows.Key, rows => rows.Select(Row).ToArray());
    }

    private static Matrix3 Row(string[] cells)
    {
        var m = cells.Skip(2).Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray();
        return new Matrix3(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8]);
    }
}
