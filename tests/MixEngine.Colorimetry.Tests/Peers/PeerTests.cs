namespace MixEngine.Colorimetry.Tests;

/// <summary>Thousands of random colours through ours and through two general-purpose libraries.</summary>
public class PeerTests(PeerLibraries peers) : IClassFixture<PeerLibraries>
{
    private static readonly Xyz White = Arbitrary.White(ViewingCondition.Default);

    [Fact]
    public void XYZ_and_Lab_of_screen_colours_agree()
    {
        // All three derive the matrix from the same primaries and the white (0.3127, 0.3290): only rounding remains.
        foreach (var library in new[] { peers.Culori, peers.ColorJs })
        {
            for (var i = 0; i < peers.Codes.Count; i++)
            {
                var code = peers.Codes[i];
                AssertNear(library.Codes[i].Xyz, Coordinates(code.ToSrgb().ToLinear().ToXyz(LinearSrgb.StandardWhite), 0.01), 1e-12);
                AssertNear(library.Codes[i].Lab, Coordinates(code.ToLab()), 1e-9);
            }
        }
    }

    [Fact]
    public void OKLab_of_screen_colours_agrees()
    {
        // The peers use more digits of the matrices than were published, which is worth up to 1e-7.
        foreach (var library in new[] { peers.Culori, peers.ColorJs })
        {
            for (var i = 0; i < peers.Codes.Count; i++)
            {
                var lab = OkLab.FromXyz(peers.Codes[i].ToXyz(), White);
                AssertNear(library.Codes[i].Oklab, [lab.L, lab.A, lab.B], 1e-7);
            }
        }
    }

    [Fact]
    public void Bradford_adaptation_from_D65_to_D50_agrees()
    {
        // D50 is (0.3457, 0.3585) there. One of the two keeps its adaptation matrix to seven decimals.
        var d50 = new XyY(0.3457, 0.3585, 100).ToXyz();
        for (var i = 0; i < peers.Codes.Count; i++)
        {
            var xyz = peers.Codes[i].ToSrgb().ToLinear().ToXyz(LinearSrgb.StandardWhite);
            var adapted = Coordinates(ChromaticAdaptation.Bradford.Adapt(xyz, LinearSrgb.StandardWhite, d50), 0.01);
            AssertNear(peers.ColorJs.Codes[i].D50, adapted, 1e-7);
            AssertNear(peers.Culori.Codes[i].D50, adapted, 1e-7);
        }
    }

    [Fact]
    public void CAM16_of_screen_colours_agrees()
    {
        // The peer's circumstances: 64 lx on grey, background 20, average surround.
        var view = new Cam16ViewingConditions(LinearSrgb.StandardWhite, 64 / Math.PI * 0.2, 20, Surround.Average);
        for (var i = 0; i < peers.Codes.Count; i++)
        {
            var xyz = peers.Codes[i].ToSrgb().ToLinear().ToXyz(LinearSrgb.StandardWhite);
            var (expected, actual) = (peers.ColorJs.Codes[i].Cam16, Cam16.FromXyz(xyz, view));
            AssertNear(expected, [actual.J, actual.M, actual.HueDegrees ?? expected[2]], 1e-6);
        }
    }

    [Fact]
    public void CIEDE2000_agrees() =>
        AssertDifferences(DeltaE2000.Between, pair => pair.Ciede2000, peers.Culori, peers.ColorJs);

    [Fact]
    public void CIE76_agrees() =>
        AssertDifferences(DeltaE76.Between, pair => pair.Cie76, peers.Culori, peers.ColorJs);

    [Fact]
    public void CIE94_agrees() =>
        AssertDifferences(DeltaE94.GraphicArts, pair => pair.Cie94, peers.Culori);

    [Fact]
    public void CMC_agrees()
    {
        AssertDifferences((standard, sample) => DeltaECmc.Between(standard, sample, 2, 1), pair => pair.Cmc21, peers.Culori, peers.ColorJs);
        AssertDifferences((standard, sample) => DeltaECmc.Between(standard, sample, 1, 1), pair => pair.Cmc11, peers.Culori, peers.ColorJs);
    }

    [Fact]
    public void Gamut_mapping_by_chroma_agrees()
    {
        // The peer halves the way until 0.4 / 2^13 of chroma is left.
        for (var i = 0; i < peers.Vivid.Count; i++)
        {
            var mapped = OkLab.FromLinearSrgb(GamutMapping.ToGamut(peers.Vivid[i]));
            AssertNear(peers.Culori.Vivid[i], [mapped.L, mapped.A, mapped.B], 1e-4);
        }
    }

    private void AssertDifferences(Func<Lab, Lab, double> formula, Func<PeerLibraries.Pair, double?> theirs, params PeerLibraries.Answers[] libraries)
    {
        foreach (var library in libraries)
        {
            for (var i = 0; i < peers.Pairs.Count; i++)
            {
                var (first, second) = peers.Pairs[i];
                Assert.Equal(theirs(library.Pairs[i])!.Value, formula(first, second), 1e-9);
            }
        }
    }

    private static double[] Coordinates(Xyz xyz, double scale) => [scale * xyz.X, scale * xyz.Y, scale * xyz.Z];

    private static double[] Coordinates(Lab lab) => [lab.L, lab.A, lab.B];

    private static void AssertNear(double[] expected, double[] actual, double tolerance)
    {
        for (var i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], actual[i], tolerance);
        }
    }
}
