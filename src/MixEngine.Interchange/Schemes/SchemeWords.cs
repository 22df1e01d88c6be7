using MixEngine.Core;

namespace MixEngine.Interchange;

/// <summary>The words that keys of a scheme file may hold.</summary>
internal static class SchemeWords
{
    public static readonly Vocabulary<AreaRole> Roles = new(
        (AreaRole.Layers, ["layers"]),
        (AreaRole.Single, ["single", "single colour", "single color"]),
        (AreaRole.Glaze, ["glaze"]),
        (AreaRole.Lining, ["lining"]));

    public static readonly Vocabulary<Finish> Finishes = new(
        (Finish.Matt, ["matt", "matte"]),
        (Finish.Satin, ["satin"]),
        (Finish.Gloss, ["gloss"]));

    public static readonly Vocabulary<Thinner> Thinners = new(
        (Thinner.Water, ["water"]),
        (Thinner.Solvent, ["solvent"]));

    public static readonly Vocabulary<SprayedCoat> Sprayed = new(
        (SprayedCoat.Primer, ["primer"]),
        (SprayedCoat.Paint, ["paint"]),
        (SprayedCoat.Varnish, ["varnish"]));

    public static readonly Vocabulary<PrimerWord> Primers = new(
        (PrimerWord.Black, ["black"]),
        (PrimerWord.Grey, ["grey", "gray"]),
        (PrimerWord.White, ["white"]));
}

/// <summary>What thins a varnish.</summary>
internal enum Thinner
{
    /// <summary>Water.</summary>
    Water,

    /// <summary>A solvent that evaporates into the air one breathes.</summary>
    Solvent,
}

/// <summary>The primers there are.</summary>
internal enum PrimerWord
{
    /// <summary>Black.</summary>
    Black,

    /// <summary>Grey.</summary>
    Grey,

    /// <summary>White.</summary>
    White,
}
