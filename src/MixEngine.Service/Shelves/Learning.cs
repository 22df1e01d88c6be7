using MixEngine.Core;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>Which swatches of a shelf can be learnt from, and why others cannot. Immutable.</summary>
public sealed class Learning
{
    private readonly Dictionary<string, string> _unused;

    private Learning(Dictionary<string, string> unused) => _unused = unused;

    /// <summary>Nothing was measured, so nothing was learnt.</summary>
    public static Learning Nothing { get; } = new([]);

    /// <summary>Learns from swatches. Those that cannot be used are passed over, each with its reason: nothing that is stored keeps a shelf from answering.</summary>
    /// <param name="entered">The shelf's paints as they follow from what was entered of each alone.</param>
    /// <param name="swatches">The shelf's swatches.</param>
    /// <param name="cancellationToken">Ends it early.</param>
    public static Learning From(IReadOnlyList<Paint> entered, IReadOnlyList<StoredSwatch> swatches, CancellationToken cancellationToken = default)
    {
        var paints = Shelf.WithMediumAndWater(entered);
        var named = new Dictionary<string, Paint?>();
        Paint? Find(string name)
        {
            if (!named.TryGetValue(name, out var paint))
            {
                named[name] = paint = paints.FirstOrDefault(paint => PaintLookup.IsName(paint, name));
            }

            return paint;
        }

        var unused = new Dictionary<string, string>();
        var usable = new List<Swatch>();
        foreach (var swatch in swatches)
        {
            if (SwatchFromEvidence.Derive(swatch, Find, out var missing) is { } derived)
            {
                usable.Add(derived);
            }
            else
            {
                unused[swatch.Id] = $"Not used: there is no '{missing}' on the shelf any more. It is kept, and used again when that paint is back.";
            }
        }

        foreach (var (darker, lighter) in FilmOrder.Violations(usable))
        {
            unused[darker.Id] = unused[lighter.Id] = FilmOrder.Words(darker, lighter);
        }

        return new Learning(unused);
    }

    /// <summary>What is to be said of a swatch; null where there is nothing.</summary>
    public string? RemarkOn(string swatchId) => _unused.GetValueOrDefault(swatchId);
}
