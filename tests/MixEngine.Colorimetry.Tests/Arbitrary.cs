using System.Runtime.CompilerServices;
using CsCheck;

namespace MixEngine.Colorimetry.Tests;

/// <summary>Random members of the domain, for the properties.</summary>
internal static class Arbitrary
{
    /// <summary>Any CIELAB value a user could type, inside and outside what surfaces can be.</summary>
    public static readonly Gen<Lab> Lab = Gen.Select(Gen.Double[0, 100], Gen.Double[-128, 128], Gen.Double[-128, 128], (l, a, b) => new Lab(l, a, b));

    public static readonly Gen<HexColor> Hex = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, (r, g, b) => new HexColor(r, g, b));

    public static readonly Gen<LinearSrgb> LinearSrgb =
        Gen.Select(Gen.Double[-0.5, 1.5], Gen.Double[-0.5, 1.5], Gen.Double[-0.5, 1.5], (r, g, b) => new LinearSrgb(r, g, b));

    public static readonly Gen<Observer> Observer = Gen.Enum<Observer>();

    public static readonly Gen<ViewingCondition> View =
        Gen.Select(Gen.Int[0, Illuminant.All.Count - 1].Select(i => Illuminant.All[i]), Observer, (light, observer) => new ViewingCondition(light, observer));

    /// <summary>Ragged curves, every band on its own.</summary>
    public static readonly Gen<double[]> RaggedReflectance = Gen.Double[0, 1].Array[SpectralGrid.Bands];

    /// <summary>Two levels with up to two sharp edges: the most vivid colours that surfaces between those levels can have.</summary>
    public static readonly Gen<double[]> EdgedReflectance = Gen.Select(
        Gen.Int[0, 35], Gen.Int[0, 35], Gen.Double[0.005, 0.995], Gen.Double[0.005, 0.995],
        (first, second, inside, outside) => Enumerable.Range(0, SpectralGrid.Bands)
            .Select(band => band >= Math.Min(first, second) && band <= Math.Max(first, second) ? inside : outside)
            .ToArray());

    public static readonly Gen<double[]> Reflectance = Gen.OneOf(RaggedReflectance, EdgedReflectance);

    /// <summary>Every property is tried on this many members unless it says otherwise.</summary>
    [ModuleInitializer]
    internal static void TryManyMembers() => Check.Iter = 1000;

    public static Xyz White(ViewingCondition view) => TristimulusWeights.For(view).White;

    public static void AssertNear(Xyz expected, Xyz actual, double tolerance)
    {
        Assert.Equal(expected.X, actual.X, tolerance);
        Assert.Equal(expected.Y, actual.Y, tolerance);
        Assert.Equal(expected.Z, actual.Z, tolerance);
    }

    public static void AssertNear(Lab expected, Lab actual, double tolerance)
    {
        Assert.Equal(expected.L, actual.L, tolerance);
        Assert.Equal(expected.A, actual.A, tolerance);
        Assert.Equal(expected.B, actual.B, tolerance);
    }
}
