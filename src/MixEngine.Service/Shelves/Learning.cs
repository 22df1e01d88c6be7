using MixEngine.Core;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>What the swatches of a shelf say of its paints, and which of them could not be used. Immutable.</summary>
public sealed class Learning
{
    private readonly Dictionary<string, SwatchFit> _fits;
    private readonly Dictionary<string, string> _unused;

    private Learning(Characterization? result, Dictionary<string, string> unused)
    {
        Result = result;
        _fits = result?.Fits.ToDictionary(fit => fit.Swatch.Id) ?? [];
        _unused = unused;
    }

    /// <summary>Nothing was measured, so nothing was learnt.</summary>
    public static Learning Nothing { get; } = new(null, []);

    /// <summary>The engine's result; null where there is none.</summary>
    public Characterization? Result { get; }

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

        usable.RemoveAll(swatch => unused.ContainsKey(swatch.Id));
        if (usable.Count == 0)
        {
            return new Learning(null, unused);
        }

        try
        {
            return new Learning(Characterization.Of(paints, usable, cancellationToken), unused);
        }
        catch (ArgumentException fault)
        {
            foreach (var swatch in usable)
            {
                unused[swatch.Id] = $"Not used: {fault.Message.Split(" (Parameter '")[0]}";
            }

            return new Learning(null, unused);
        }
    }

    /// <summary>The paint as learnt; the same where nothing was learnt of it.</summary>
    public Paint Of(Paint entered) => Result?.Paint(entered.Id) ?? entered;

    /// <summary>How well a swatch agrees; null where it is not used.</summary>
    public SwatchFit? FitOf(string swatchId) => _fits.GetValueOrDefault(swatchId);

    /// <summary>What is to be said of a swatch; null where there is nothing.</summary>
    public string? RemarkOn(string swatchId) => _unused.GetValueOrDefault(swatchId) ?? FitOf(swatchId)?.Remark;
}
