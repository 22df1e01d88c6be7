namespace MixEngine.Core;

/// <summary>The cautions of a scheme: of its pigments, and of what is sprayed, sanded and varnished.</summary>
public static class SchemeCautions
{
    /// <summary>The cautions, those of the work first.</summary>
    /// <param name="scheme">What is done.</param>
    /// <param name="paints">The paints it takes.</param>
    public static IReadOnlyList<Caution> Of(Scheme scheme, IEnumerable<Paint> paints)
    {
        var cautions = new List<Caution>();
        if (scheme.Sprayed.Count > 0)
        {
            cautions.Add(new("spraying", "Outdoors or before an extractor, never over a flame or a hot lamp; a mask against paint mist (particles and vapour), goggles and gloves; nobody else in the room until the mist has settled."));
        }

        if (scheme.Sanded)
        {
            cautions.Add(new("sanding", "Sand wet, wear a dust mask (FFP2 or better), wipe the dust up wet and bin it; never blow it away."));
        }

        if (scheme.Varnish is { Solvent: true })
        {
            cautions.Add(new("solvent varnish", "Open air or good draught, no flame, no smoking, gloves; mask against organic vapour when sprayed; rags and rests into a closed metal tin: they can catch fire by themselves."));
        }

        // Each hazard once, with the paints that carry it.
        var dusty = scheme.Sanded || scheme.Sprayed.Contains(SprayedCoat.Paint);
        var all = paints.Where(paint => paint.Kind == PaintKind.Paint).ToArray();
        var carried = from paint in all from pigment in paint.Pigments let hazard = PigmentHazard.Of(pigment) where hazard is not null && (dusty || !hazard.OnlyAsDust) select (paint, pigment, hazard);
        foreach (var group in carried.GroupBy(row => row.hazard))
        {
            cautions.Add(new($"{group.Key.Name}: {string.Join(", ", group.Select(row => $"{row.paint.Name} ({row.pigment})").Distinct())}", group.Key.Words));
        }

        var unknown = all.Where(paint => paint.Pigments.Count == 0).Select(paint => paint.Name).ToArray();
        if (unknown.Length > 0)
        {
            const int named = 6;
            var names = string.Join(", ", unknown.Take(named)) + (unknown.Length > named ? $" and {unknown.Length - named} more" : "");
            cautions.Add(new($"pigments not stated: {names}", "What is in them is not known here: read the maker's safety data sheet before spraying or sanding, and keep brushes out of the mouth."));
        }

        return cautions;
    }
}
