namespace MixEngine.Core;

/// <summary>In what the steps of a ramp are to be even.</summary>
public enum StepDifference
{
    /// <summary>CIEDE2000.</summary>
    Ciede2000,

    /// <summary>Distance in CAM16-UCS, seen at a lit desk.</summary>
    Cam16Ucs,

    /// <summary>Distance in OKLab, times 100, seen after adaptation to D65.</summary>
    OkLab,

    /// <summary>Lightness L* alone, as a value study has it.</summary>
    Lightness,
}
