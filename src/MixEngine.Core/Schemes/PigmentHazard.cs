namespace MixEngine.Core;

/// <summary>Pigments that are known, by their Colour Index generic name, to deserve care.</summary>
/// <remarks>
/// The composition of each generic name is that of the Colour Index (from memory); that dried and wet paint is touched with a brush alone is the
/// reason why dust, mist and swallowing are what is warned of.
/// </remarks>
/// <param name="Name">What is in it, such as "cadmium".</param>
/// <param name="Words">What to do.</param>
public sealed record PigmentHazard(string Name, string Words)
{
    private const string Toxic = "Never spray or sand it; do not eat, drink or smoke at the table; no brush in the mouth; wash hands; keep rests out of the drain and away from children.";

    private static readonly PigmentHazard Cadmium = new("cadmium", Toxic);
    private static readonly PigmentHazard Lead = new("lead", Toxic);
    private static readonly PigmentHazard LeadChromate = new("lead and chromate", Toxic);
    private static readonly PigmentHazard Chromate = new("chromate (hexavalent chromium)", Toxic + " May cause allergy: wear gloves.");
    private static readonly PigmentHazard Cobalt = new("cobalt", "Do not spray or sand it; may cause allergy: wear gloves, wash hands; no brush in the mouth.");
    private static readonly PigmentHazard Nickel = new("nickel", "Do not spray or sand it; may cause allergy: wear gloves, wash hands.");
    private static readonly PigmentHazard Arsenic = new("arsenic", Toxic);
    private static readonly PigmentHazard Mercury = new("mercury", Toxic);
    private static readonly PigmentHazard Antimony = new("antimony", "Do not spray or sand it; no brush in the mouth; wash hands.");
    private static readonly PigmentHazard Manganese = new("manganese", "Do not spray or sand it: its dust must not be breathed.");
    private static readonly PigmentHazard Copper = new("copper", "Do not spray or sand it; keep rests out of the drain: it harms what lives in water.");
    private static readonly PigmentHazard Zinc = new("zinc oxide", "Keep rests out of the drain: it harms what lives in water.");
    private static readonly PigmentHazard Dust = new("fine mineral dust", "Harmless under the brush; its dust and mist must not be breathed: mask when spraying or sanding.");

    private static readonly Dictionary<string, PigmentHazard> ByName = Table(
        (Cadmium, "PY35 PY35:1 PY37 PY37:1 PO20 PO20:1 PR108 PR108:1"),
        (Mercury, "PR106 PR113 PR113:1 PO23 PO23:1"),
        (Lead, "PW1 PW2 PY46 PY48 PR105 PY41"),
        (LeadChromate, "PY34 PR103 PR104 PO21 PO45 PG15"),
        (Chromate, "PY31 PY32 PY33 PY36 PY36:1"),
        (Cobalt, "PB28 PB35 PB36 PB36:1 PB72 PB74 PG14 PG19 PG26 PG50 PV14 PV47 PV48 PV49 PY40 PBK27 PBK29"),
        (Nickel, "PY53 PY57 PY157 PG10 PY150 PR257 PO68"),
        (Antimony, "PR107 PW11 PBR24"),
        (Arsenic, "PG20 PG21 PG22 PY39"),
        (Manganese, "PB33 PV16 PBK14 PBK26 PBR8"),
        (Copper, "PB30 PB31 PG39 PBK15 PBK28"),
        (Zinc, "PW4"),
        (Dust, "PW6 PBK6 PBK7 PW18:1 PW19 PW26 PW27"));

    /// <summary>The hazard of a pigment; null where none is known to us, which does not say that there is none.</summary>
    /// <param name="colorIndexName">Such as "PR108", "P.R. 108" or "pr 108".</param>
    public static PigmentHazard? Of(string colorIndexName) =>
        ByName.GetValueOrDefault(string.Concat(colorIndexName.Where(c => char.IsAsciiLetterOrDigit(c) || c == ':')).ToUpperInvariant());

    /// <summary>Whether it matters only where dust or mist arises.</summary>
    public bool OnlyAsDust => this == Dust;

    private static Dictionary<string, PigmentHazard> Table(params (PigmentHazard Hazard, string Names)[] rows) =>
        rows.SelectMany(row => row.Names.Split(' ').Select(name => (name, row.Hazard))).ToDictionary(pair => pair.name, pair => pair.Hazard);
}
