using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The shelf laid out for vector lanes: similar paints lie together in blocks of sixteen, and each block knows the least and the most K and
/// S of its paints per band, so that one look can rule out all of them.
/// </summary>
/// <remarks>
/// The unit of K and S is each band's own: only their ratio matters. Where the paints differ in the surface they were read through, one more
/// row after the bands carries it: e = ΣP / Σ(P + Q) with P = volume·e and Q = volume·(1 - e), which is bounded like S/(K + S).
/// </remarks>
internal sealed class PaintBlocks
{
    /// <summary>Paints to a block: the floats of one 512-bit vector.</summary>
    public const int Lanes = 16;

    /// <summary>Rows of a column, padded to whole vectors.</summary>
    public const int ColumnRows = 48;

    /// <summary>What a column holds for a block: least K, most K, least S, most S.</summary>
    public const int Sides = 4;

    // Below any K that could be told from 0 beside the strongest paint; keeps 0/0 out of the lanes.
    private const float Least = 1e-25f;

    private readonly AlignedFloats _paints;
    private readonly AlignedFloats _hulls;
    private readonly AlignedFloats _columns;
    private readonly AlignedFloats _hullColumns;
    private readonly int[] _placeOf;

    public PaintBlocks(SearchShelf shelf, PaintSurfaces surfaces)
    {
        var blocks = SimilarPaints.InBlocks(shelf, Lanes);
        Blocks = blocks.Count;
        Rows = SpectralGrid.Bands + (surfaces.Differ ? 1 : 0);
        _placeOf = [.. blocks.SelectMany(block => block.Concat(Enumerable.Repeat(-1, Lanes - block.Length)))];
        Groups = (Blocks + Lanes - 1) / Lanes;

        // Each band in the unit of its strongest paint.
        var units = Enumerable.Range(0, Rows).Select(row => Strongest(shelf, surfaces, row)).ToArray();

        // Columns: one paint or block, all rows, for what is added up band by band.
        _columns = new(Blocks * Lanes * 2 * ColumnRows);
        _hullColumns = new(Blocks * Sides * ColumnRows);
        StartColumn = new(2 * ColumnRows);

        // Lanes: one row, sixteen paints or blocks side by side.
        _paints = new(Blocks * Rows * 2 * Lanes);
        _hulls = new(Groups * Rows * Sides * Lanes);
        for (var row = 0; row < Rows; row++)
        {
            var (startK, startS) = row < SpectralGrid.Bands ? (shelf.StartK[row], shelf.StartS[row]) : surfaces.Start;
            StartColumn.Span[row] = (float)(startK * units[row]);
            StartColumn.Span[ColumnRows + row] = (float)(startS * units[row]);
            for (var slot = 0; slot < _placeOf.Length; slot++)
            {
                // An empty lane repeats its block's first paint, so that it widens nothing.
                var place = _placeOf[slot] >= 0 ? _placeOf[slot] : _placeOf[slot / Lanes * Lanes];
                var (k, s) = row < SpectralGrid.Bands ? (shelf.K(place)[row], shelf.S(place)[row]) : surfaces.Of(place);
                Put(row, slot, Math.Max(Least, (float)(k * units[row])), (float)(s * units[row]));
            }

            for (var block = 0; block < Groups * Lanes; block++)
            {
                PutHull(row, Math.Min(block, Blocks - 1), block);
            }
        }
    }

    /// <summary>How many blocks.</summary>
    public int Blocks { get; }

    /// <summary>How many groups of sixteen blocks.</summary>
    public int Groups { get; }

    /// <summary>Bands, and one more where surfaces differ.</summary>
    public int Rows { get; }

    /// <summary>What is on the palette: K of all rows, then S.</summary>
    public AlignedFloats StartColumn { get; }

    /// <summary>The place on the shelf of a slot; -1 where the slot is empty.</summary>
    public int PlaceOf(int slot) => _placeOf[slot];

    /// <summary>K of all rows of the paint in a slot; S follows after <see cref="ColumnRows"/>.</summary>
    public ref float Column(int slot) => ref _columns.At(slot * 2 * ColumnRows);

    /// <summary>The four <see cref="Sides"/> of a block, all rows of each.</summary>
    public ref float HullColumn(int block) => ref _hullColumns.At(block * Sides * ColumnRows);

    /// <summary>Sixteen paints: for each row their K, then their S.</summary>
    public ref float PaintLanes(int block) => ref _paints.At(block * Rows * 2 * Lanes);

    /// <summary>Sixteen blocks: for each row the four <see cref="Sides"/>.</summary>
    public ref float HullLanes(int group) => ref _hulls.At(group * Rows * Sides * Lanes);

    private static double Strongest(SearchShelf shelf, PaintSurfaces surfaces, int row)
    {
        var most = 0.0;
        for (var place = 0; place < shelf.Paints.Length; place++)
        {
            var (k, s) = row < SpectralGrid.Bands ? (shelf.K(place)[row], shelf.S(place)[row]) : surfaces.Of(place);
            most = Math.Max(most, k + s);
        }

        return most > 0 ? 1 / most : 1;
    }

    private void Put(int row, int slot, float k, float s)
    {
        var column = _columns.Span[(slot * 2 * ColumnRows)..];
        (column[row], column[ColumnRows + row]) = (k, s);
        var lanes = _paints.Span[((slot / Lanes * Rows + row) * 2 * Lanes)..];
        (lanes[slot % Lanes], lanes[Lanes + slot % Lanes]) = (k, s);
    }

    private void PutHull(int row, int block, int laneOf)
    {
        var lanes = _paints.Span.Slice((block * Rows + row) * 2 * Lanes, 2 * Lanes);
        Span<float> sides = [float.MaxValue, 0, float.MaxValue, 0];
        for (var lane = 0; lane < Lanes; lane++)
        {
            var (k, s) = (lanes[lane], lanes[Lanes + lane]);
            (sides[0], sides[1]) = (Math.Min(sides[0], k), Math.Max(sides[1], k));
            (sides[2], sides[3]) = (Math.Min(sides[2], s), Math.Max(sides[3], s));
        }

        for (var side = 0; side < Sides; side++)
        {
            _hullColumns.Span[(block * Sides + side) * ColumnRows + row] = sides[side];
            _hulls.Span[((laneOf / Lanes * Rows + row) * Sides + side) * Lanes + laneOf % Lanes] = sides[side];
        }
    }
}
