namespace MixEngine.Colorimetry;

/// <summary>sRGB with its transfer curve [IEC61966-2-1].</summary>
/// <param name="R">0 to 1 (not 0 to 255) inside the gamut.</param>
/// <param name="G">As R.</param>
/// <param name="B">As R.</param>
public readonly record struct Srgb(double R, double G, double B)
{
    /// <summary>Without the transfer curve.</summary>
    public LinearSrgb ToLinear() => new(Decode(R), Decode(G), Decode(B));

    /// <summary>The nearest 8-bit code. Channels outside [0, 1] are cut: map the colour into the gamut first.</summary>
    public HexColor ToHex() => new(ToByte(R), ToByte(G), ToByte(B));

    private static double Decode(double encoded)
    {
        var size = Math.Abs(encoded);
        var linear = size <= 0.04045 ? size / 12.92 : Math.Pow((size + 0.055) / 1.055, 2.4);
        return Math.CopySign(linear, encoded);
    }

    private static byte ToByte(double channel) => (byte)Math.Round(255 * Math.Clamp(channel, 0, 1), MidpointRounding.AwayFromZero);
}
