using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class ColorVisionTests
{
    [Fact]
    public void Seen_colours_are_those_of_a_general_library()
    {
        var table = PublishedTable.Load("machado2009-library.csv");
        foreach (var row in table.Rows)
        {
            var eye = new ColorVision(Enum.Parse<ColorVisionKind>(row.Text("vision"), ignoreCase: true), row["severity"]);
            var seen = eye.Simulate(new Srgb(row["r"], row["g"], row["b"]).ToLinear());
            foreach (var (expected, linear, encoded) in new[] { (row["seen_r"], seen.R, seen.ToSrgb().R), (row["seen_g"], seen.G, seen.ToSrgb().G), (row["seen_b"], seen.B, seen.ToSrgb().B) })
            {
                // Below zero the library goes on along the straight piece of the curve, where ours is odd.
                Assert.Equal(expected, expected < 0 ? 12.92 * linear : encoded, 2e-6);
            }
        }
    }

    [Fact]
    public void Matrices_of_missing_cones_are_the_published_ones()
    {
        // Machado 2009, severity 1, deutan, seen from red, green and blue (from memory).
        var eye = new ColorVision(ColorVisionKind.Deutan);
        Assert.Equal(new LinearSrgb(0.367322, 0.280085, -0.011820), eye.Simulate(new LinearSrgb(1, 0, 0)));
        Assert.Equal(new LinearSrgb(0.860646, 0.672501, 0.042940), eye.Simulate(new LinearSrgb(0, 1, 0)));
        Assert.Equal(new LinearSrgb(-0.227968, 0.047413, 0.968881), eye.Simulate(new LinearSrgb(0, 0, 1)));
    }

    [Fact]
    public void Severity_zero_and_greys_change_nothing()
    {
        var kinds = Gen.Enum<ColorVisionKind>();
        Gen.Select(kinds, Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1]).Sample((kind, r, g, b) =>
            Assert.Equal(new LinearSrgb(r, g, b), new ColorVision(kind, 0).Simulate(new LinearSrgb(r, g, b))));

        // Each row of each matrix adds up to 1, to the digits that are published.
        Gen.Select(kinds, Gen.Double[0, 1], Gen.Double[0, 1]).Sample((kind, severity, grey) =>
        {
            var seen = new ColorVision(kind, severity).Simulate(new LinearSrgb(grey, grey, grey));
            Assert.Equal(grey, seen.R, 3e-6);
            Assert.Equal(grey, seen.G, 3e-6);
            Assert.Equal(grey, seen.B, 3e-6);
        });
    }

    [Fact]
    public void Red_and_green_come_together_for_a_deutan_eye_and_under_any_light()
    {
        foreach (var condition in new[] { ViewingCondition.Default, new ViewingCondition(Illuminant.A, Observer.Degree10) })
        {
            var white = TristimulusWeights.For(condition).White;
            var (red, green) = (new Lab(50, 30, 25), new Lab(52, -20, 25));
            Lab Seen(Lab lab) => Lab.FromXyz(new ColorVision(ColorVisionKind.Deutan).Simulate(lab.ToXyz(white), white), white);
            Assert.True(DeltaE2000.Between(Seen(red), Seen(green)) < 0.5 * DeltaE2000.Between(red, green));
        }
    }

    [Fact]
    public void Severity_out_of_range_is_refused_with_its_value()
    {
        Assert.Contains("1.5", Assert.Throws<ArgumentOutOfRangeException>(() => new ColorVision(ColorVisionKind.Protan, 1.5)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new ColorVision(ColorVisionKind.Protan, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ColorVision((ColorVisionKind)7));
    }
}
