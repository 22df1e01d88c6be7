using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>An 8-bit sRGB colour code such as #5a6b3c.</summary>
/// <param name="R">Red, 0 to 255.</param>
/// <param name="G">Green, 0 to 255.</param>
/// <param name="B">Blue, 0 to 255.</param>
public readonly record struct HexColor(byte R, byte G, byte B)
{
    /// <summary>Reads "#5a6b3c", "5a6b3c", "#ccc" or "ccc".</summary>
    /// <exception cref="FormatException">Anything else; the message shows the value and what was expected.</exception>
    public static HexColor Parse(string text) =>
        TryParse(text, out var color)
            ? color
            : throw new FormatException($"'{text}' is not a colour code: give # and six hexadecimal digits (#5a6b3c) or three (#ccc).");

    /// <summary>Reads "#5a6b3c", "5a6b3c", "#ccc" or "ccc"; blanks around it are ignored.</summary>
    public static bool TryParse(string? text, out HexColor color)
    {
        color = default;
        var digits = text.AsSpan().Trim();
        if (digits.StartsWith("#"))
        {
            digits = digits[1..];
        }

        // The parser below would also take signs and blanks.
        foreach (var digit in digits)
        {
            if (!char.IsAsciiHexDigit(digit))
            {
                return false;
            }
        }

        switch (digits.Length)
        {
            case 6:
                color = new HexColor(Byte(digits[..2]), Byte(digits[2..4]), Byte(digits[4..]));
                return true;
            case 3:
                // One digit stands for two: c is cc.
                color = new HexColor((byte)(17 * Byte(digits[..1])), (byte)(17 * Byte(digits[1..2])), (byte)(17 * Byte(digits[2..])));
                return true;
            default:
                return false;
        }
    }

    /// <summary>Channels from 0 to 1.</summary>
    public Srgb ToSrgb() => new(R / 255.0, G / 255.0, B / 255.0);

    /// <summary>Tristimulus values under <see cref="ViewingCondition.Default"/>; #ffffff is exactly its white.</summary>
    public Xyz ToXyz() => ToSrgb().ToLinear().ToXyz(TristimulusWeights.For(ViewingCondition.Default).White);

    /// <summary>CIELAB under <see cref="ViewingCondition.Default"/>.</summary>
    public Lab ToLab() => Lab.FromXyz(ToXyz(), TristimulusWeights.For(ViewingCondition.Default).White);

    /// <summary>"#rrggbb".</summary>
    public override string ToString() => string.Create(7, this, static (text, color) =>
    {
        text[0] = '#';
        Convert.TryToHexStringLower([color.R, color.G, color.B], text[1..], out _);
    });

    private static byte Byte(ReadOnlySpan<char> digits) => byte.Parse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);
}
