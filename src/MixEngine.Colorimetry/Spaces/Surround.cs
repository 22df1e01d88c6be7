namespace MixEngine.Colorimetry;

/// <summary>How bright the surround of a viewed colour is, as the parameters of CAM16 [Li2017, Table A1].</summary>
/// <param name="F">Largest degree of adaptation.</param>
/// <param name="C">Impact of the surround.</param>
/// <param name="Nc">Chromatic induction.</param>
public readonly record struct Surround(double F, double C, double Nc)
{
    /// <summary>A lit room.</summary>
    public static Surround Average { get; } = new(1, 0.69, 1);

    /// <summary>A dim room.</summary>
    public static Surround Dim { get; } = new(0.9, 0.59, 0.9);

    /// <summary>A dark room.</summary>
    public static Surround Dark { get; } = new(0.8, 0.525, 0.8);
}
