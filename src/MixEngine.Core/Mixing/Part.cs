namespace MixEngine.Core;

/// <summary>So many parts of one paint. A part is a volume; in whole drops it is a drop.</summary>
public readonly record struct Part(Paint Paint, double Parts)
{
    /// <summary>Wet volume in conventional drops: a part is a drop of the bottle's own size where drops per ml were counted, small where many make a millilitre.</summary>
    internal double WetVolume => Parts * Paint.ConventionalDropsPerMl / (Paint.DropsPerMl ?? Paint.ConventionalDropsPerMl);

    /// <summary>What of that stays when it dries.</summary>
    internal double DryVolume => WetVolume * Paint.VolumeSolids;
}
