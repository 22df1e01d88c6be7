using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.LayeringSpeed;

/// <summary>Random paints that are the same on every run.</summary>
internal sealed class InventedPaints(int seed)
{
    private readonly Random _random = new(seed);
    private int _made;

    /// <summary>A paint between two lightnesses.</summary>
    public Paint Next(double darkest, double lightest)
    {
        while (true)
        {
            var hex = new HexColor((byte)_random.Next(256), (byte)_random.Next(256), (byte)_random.Next(256));
            if (hex.ToLab().L >= darkest && hex.ToLab().L <= lightest)
            {
                var name = $"pebble {++_made}";
                return ColorGrade.Characterize(
                    new Paint { Id = name, Name = name, Opacity = (OpacityWord)_random.Next(4), Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
                    hex.ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);
            }
        }
    }

    /// <summary>A shelf of so many.</summary>
    public IReadOnlyList<Paint> Shelf(int paints) => [.. Enumerable.Range(0, paints).Select(_ => Next(0, 100))];
}
