using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>Writes colours into the columns that <see cref="ColorFields"/> reads.</summary>
internal sealed class ColorCells
{
    private readonly bool _xyz;
    private readonly bool _scaled;
    private readonly double[] _bandsNm;

    /// <param name="colors">All colours of the table: only columns that one of them needs are written, but hex and Lab always.</param>
    public ColorCells(IReadOnlyList<ColorReading?> colors)
    {
        _xyz = colors.Any(c => c is XyzReading);
        _bandsNm = [.. colors.OfType<SpectrumReading>().Select(s => s.WavelengthsNm).Distinct().SelectMany(nm => nm).Distinct().Order()];
        _scaled = _xyz || _bandsNm.Length > 0;
    }

    public IEnumerable<Cell> Headings =>
    [
        new(ColorColumns.Hex.Name), new(ColorColumns.L.Name), new(ColorColumns.A.Name), new(ColorColumns.B.Name),
        .. _xyz ? [new Cell(ColorColumns.X.Name), new Cell(ColorColumns.Y.Name), new Cell(ColorColumns.Z.Name)] : Array.Empty<Cell>(),
        new(ColorColumns.Illuminant.Name), new(ColorColumns.Observer.Name),
        .. _scaled ? [new Cell(ColorColumns.Scale.Name)] : Array.Empty<Cell>(),
    ];

    /// <summary>The headings of the bands, which stand last in the table.</summary>
    public IEnumerable<Cell> BandHeadings => _bandsNm.Select(nm => new Cell("R" + NumberText.Write(nm)));

    public IEnumerable<Cell> Of(ColorReading? color)
    {
        Lab? lab = (color as LabReading)?.Lab;
        Xyz? xyz = (color as XyzReading)?.Xyz;
        ViewingCondition? view = (color as LabReading)?.Condition ?? (color as XyzReading)?.Condition;
        yield return new Cell((color as HexReading)?.Hex.ToString() ?? "");
        yield return Cell.Of(lab?.L);
        yield return Cell.Of(lab?.A);
        yield return Cell.Of(lab?.B);
        if (_xyz)
        {
            yield return Cell.Of(xyz?.X);
            yield return Cell.Of(xyz?.Y);
            yield return Cell.Of(xyz?.Z);
        }
        yield return new Cell(view?.Illuminant.Name ?? "");
        yield return view is null ? Cell.Blank : new Cell(ColorColumns.WordFor(view.Observer), CellKind.Number);
        if (_scaled)
        {
            yield return new Cell(color switch
            {
                SpectrumReading => ReflectanceScales.Words.WordFor(ReflectanceScale.Fraction),
                XyzReading => ReflectanceScales.Words.WordFor(ReflectanceScale.Percent),
                _ => "",
            });
        }
    }

    public IEnumerable<Cell> BandsOf(ColorReading? color)
    {
        if (color is not SpectrumReading spectrum)
        {
            return _bandsNm.Select(_ => Cell.Blank);
        }
        if (spectrum.WavelengthsNm.SequenceEqual(_bandsNm))
        {
            return spectrum.Factors.Select(Cell.Of);
        }
        Dictionary<double, double> factors = spectrum.WavelengthsNm.Zip(spectrum.Factors).ToDictionary();
        return _bandsNm.Select(nm => factors.TryGetValue(nm, out double factor) ? Cell.Of(factor) : new Cell(ColorFields.NotOnGrid));
    }
}
