namespace MixEngine.Core;

/// <summary>
/// All ways to count out drops for one to three paints, most drops first, gathered in cells of similar proportions, and those in larger cells.
/// </summary>
/// <remarks>
/// A cell is spanned by generators: every composition of it is a sum of them with factors of 0 or more. Since K and S of a mixture are
/// linear in its parts, K/S of every composition lies between the least and the greatest K/S of the generators (the mediant bound).
/// </remarks>
internal sealed class CompositionTree
{
    /// <summary>Numbers of a generator: drops of the first, second and third paint, and how much of the base on the palette.</summary>
    public const int Parts = 4;

    /// <summary>Most generators of a cell.</summary>
    public const int MostGenerators = 4;

    private readonly List<CompositionCell> _cells = [];
    private readonly List<float> _generators = [];
    private readonly List<(int, int, int)> _compositions = [];
    private readonly float[] _generatorParts;
    private readonly AlignedFloats _drops;

    /// <summary>Compositions for so many paints.</summary>
    /// <param name="paints">1 to 3.</param>
    /// <param name="fewest">Fewest drops in all.</param>
    /// <param name="most">Most drops in all.</param>
    /// <param name="onBase">Whether they are added to a base: then 2:4 is not 1:2.</param>
    public CompositionTree(int paints, int fewest, int most, bool onBase)
    {
        // The compositions with falling drops, n1 ≥ n2 ≥ n3, are spanned by one paint alone, two in equal parts, three in equal parts, and the base alone.
        double[][] corners = [.. Enumerable.Range(1, paints).Select(equal => Enumerable.Range(0, Parts).Select(part => part < equal ? 1.0 / equal : 0).ToArray())];
        if (onBase)
        {
            corners = [.. corners, [0, 0, 0, 1]];
        }

        var points = new List<Point>();
        for (var a = 1; a <= most; a++)
        {
            for (var b = paints > 1 ? 1 : 0; b <= (paints > 1 ? a : 0) && a + b <= most; b++)
            {
                for (var c = paints > 2 ? 1 : 0; c <= (paints > 2 ? b : 0) && a + b + c <= most; c++)
                {
                    if (a + b + c >= fewest && (onBase || Candidate.IsReduced(a, b, c)))
                    {
                        double[] factors = [a - b, 2 * (b - c), 3 * c];
                        points.Add(new(a, b, c, onBase, [.. factors.Take(paints), .. onBase ? [1.0] : Array.Empty<double>()]));
                    }
                }
            }
        }

        if (points.Count > 0)
        {
            _cells.Add(default);
            Fill(0, points, corners);
        }

        (Cells, Compositions, _generatorParts) = ([.. _cells], [.. _compositions], [.. _generators]);

        // The same for vector lanes: all drops of the first paint, then of the second, then of the third.
        Stride = (Compositions.Length + 2 * PaintBlocks.Lanes - 1) / PaintBlocks.Lanes * PaintBlocks.Lanes;
        _drops = new(3 * Stride);
        for (var i = 0; i < Compositions.Length; i++)
        {
            (_drops.Span[i], _drops.Span[Stride + i], _drops.Span[2 * Stride + i]) = Compositions[i];
        }
    }

    /// <summary>The cells; the first holds all the others.</summary>
    public CompositionCell[] Cells { get; }

    /// <summary>The compositions; those of a cell lie together.</summary>
    public (int First, int Second, int Third)[] Compositions { get; }

    /// <summary>Floats from the drops of one paint in <see cref="Drops"/> to those of the next.</summary>
    public int Stride { get; }

    /// <summary>Drops of the first paint in a composition and those after it.</summary>
    public ref float Drops(int composition) => ref _drops.At(composition);

    /// <summary>One number of one generator of a cell.</summary>
    public float Generator(in CompositionCell cell, int generator, int part) => _generatorParts[(cell.FirstGenerator + generator) * Parts + part];

    private void Fill(int cell, List<Point> points, double[][] corners)
    {
        // A few compositions span themselves more closely than the corners do.
        var generators = points.Count <= corners.Length ? [.. points.Select(point => point.Shares)] : corners;
        var first = _compositions.Count;
        var firstGenerator = _generators.Count / Parts;
        _generators.AddRange(generators.SelectMany(generator => generator).Select(share => (float)share));
        var spread = generators.Max(x => generators.Max(y => Distance(x, y)));
        if (points.Count == 1)
        {
            _compositions.Add((points[0].A, points[0].B, points[0].C));
            _cells[cell] = new(first, 1, 0, 0, firstGenerator, 1, 0);
            return;
        }

        var parts = points.Count <= corners.Length
            ? [.. points.Select(point => (new List<Point> { point }, corners))]
            : Split(points, corners).Where(part => part.Item1.Count > 0).ToList();
        var firstChild = _cells.Count;
        _cells.AddRange(new CompositionCell[parts.Count]);
        for (var i = 0; i < parts.Count; i++)
        {
            Fill(firstChild + i, parts[i].Item1, parts[i].Item2);
        }

        _cells[cell] = new(first, points.Count, firstChild, parts.Count, firstGenerator, generators.Length, (float)spread);
    }

    // Cut the longest edge in its middle m: x = λ₁c₁ + λ₂c₂ + … lies on the side of c₁ where λ₁ ≥ λ₂, and there x = (λ₁-λ₂)c₁ + 2λ₂m + ….
    private static List<(List<Point>, double[][])> Split(List<Point> points, double[][] corners)
    {
        var (p, q) = (0, 1);
        for (var i = 0; i < corners.Length; i++)
        {
            for (var j = i + 1; j < corners.Length; j++)
            {
                if (Distance(corners[i], corners[j]) > Distance(corners[p], corners[q]) + 1e-12)
                {
                    (p, q) = (i, j);
                }
            }
        }

        var middle = corners[p].Zip(corners[q], (x, y) => (x + y) / 2).ToArray();
        List<Point> near = [], far = [];
        foreach (var point in points)
        {
            var factors = (double[])point.Factors.Clone();
            var (fp, fq) = (factors[p], factors[q]);
            (factors[p], factors[q]) = fp >= fq ? (fp - fq, 2 * fq) : (2 * fp, fq - fp);
            (fp >= fq ? near : far).Add(point with { Factors = factors });
        }

        return [(near, Replaced(corners, q, middle)), (far, Replaced(corners, p, middle))];
    }

    private static double[][] Replaced(double[][] corners, int at, double[] by) => [.. corners.Select((corner, i) => i == at ? by : corner)];

    private static double Distance(double[] x, double[] y) => x.Zip(y, (a, b) => Math.Abs(a - b)).Sum();

    private sealed record Point(int A, int B, int C, bool OnBase, double[] Factors)
    {
        public double[] Shares
        {
            get
            {
                double sum = A + B + C + (OnBase ? 1 : 0);
                return [A / sum, B / sum, C / sum, OnBase ? 1 / sum : 0];
            }
        }
    }
}

/// <summary>Compositions of similar proportions.</summary>
/// <param name="First">Its first composition.</param>
/// <param name="Count">How many it holds.</param>
/// <param name="FirstChild">The first of the smaller cells that divide it.</param>
/// <param name="Children">How many; 0 for a single composition.</param>
/// <param name="FirstGenerator">Its first generator.</param>
/// <param name="Generators">How many.</param>
/// <param name="Spread">The largest distance between its generators, as the sum of the differences of their shares, 0 to 2.</param>
internal readonly record struct CompositionCell(int First, int Count, int FirstChild, int Children, int FirstGenerator, int Generators, float Spread);
