using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>A dried colour as a table states it: <see cref="HexReading"/>, <see cref="LabReading"/>, <see cref="XyzReading"/> or <see cref="SpectrumReading"/>.</summary>
public abstract record ColorReading
{
    private protected ColorReading() { }
}

/// <summary>A colour as sRGB hex (D65, 2 degrees).</summary>
public sealed record HexReading(HexColor Hex) : ColorReading;

/// <summary>A CIELAB colour under a light, for an observer. L is 0 to 100.</summary>
public sealed record LabReading(Lab Lab, ViewingCondition Condition) : ColorReading;

/// <summary>Tristimulus values under a light, for an observer, with Y = 100 for the perfect white.</summary>
public sealed record XyzReading(Xyz Xyz, ViewingCondition Condition) : ColorReading;
