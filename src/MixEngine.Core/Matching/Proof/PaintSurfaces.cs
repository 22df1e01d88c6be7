namespace MixEngine.Core;

/// <summary>The surface that each paint brings into a mixture, as far as it moves the colour.</summary>
internal sealed class PaintSurfaces
{
    private readonly (double Absent, double Collected)[] _parts;

    public PaintSurfaces(SearchShelf shelf, View view)
    {
        var pigmented = shelf.Paints.Concat(shelf.Start?.Parts.Select(part => part.Paint) ?? []).Where(paint => paint.Kind == PaintKind.Paint).ToArray();
        var asked = view.Finish;
        var stated = pigmented.Count(paint => paint.Finish == asked);

        // Asking for another finish than theirs replaces what was measured; asking for their own changes nothing.
        double Share(Paint paint) => asked is { } finish && paint.Finish != asked ? finish.Surface().CollectedShare : paint.Surface.CollectedShare;
        var shares = pigmented.Select(Share).ToArray();
        var common = shares.Length > 0 ? shares[0] : 0;
        Common = common;
        Differ = shares.Any(share => share != common);

        // Where only some state the finish asked for, a mixture keeps their measured surface when all its paints do and loses it when one does not.
        Doubt = asked is { } other && stated > 0 && stated < pigmented.Length
            ? shares.Max(share => Math.Abs(share - other.Surface().CollectedShare))
            : 0;
        _parts = [.. shelf.Paints.Select((paint, place) => (shelf.Pigmented(place) * (1 - Share(paint)), shelf.Pigmented(place) * Share(paint)))];
        foreach (var part in shelf.Start?.Parts.Where(part => part.Paint.Kind == PaintKind.Paint) ?? [])
        {
            var volume = part.Parts * SearchShelf.DryVolumeOfDrop(part.Paint);
            Start = (Start.Absent + volume * (1 - Share(part.Paint)), Start.Collected + volume * Share(part.Paint));
        }
    }

    /// <summary>Whether the paints differ; otherwise all mixtures have the collected share <see cref="Common"/>.</summary>
    public bool Differ { get; }

    /// <summary>The collected share of all, where they do not differ.</summary>
    public double Common { get; }

    /// <summary>By how much the collected share of a mixture may be other than the volume-weighted mean.</summary>
    public double Doubt { get; }

    /// <summary>Of what is on the palette: volume times what is not collected, and times what is.</summary>
    public (double Absent, double Collected) Start { get; }

    /// <summary>The same of one drop of the paint at a place.</summary>
    public (double Absent, double Collected) Of(int place) => _parts[place];
}
