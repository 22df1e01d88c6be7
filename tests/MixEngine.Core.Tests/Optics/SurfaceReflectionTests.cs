using CsCheck;
using MixEngine.Core.Tests.PublishedValues;

namespace MixEngine.Core.Tests.Optics;

public class SurfaceReflectionTests
{
    [Fact]
    public void Agrees_with_Saunderson_1942()
    {
        var rows = PublishedTable.Rows("saunderson.csv").Where(row => row["k2"] == SurfaceReflection.Internal).ToArray();
        Assert.NotEmpty(rows);
        Assert.All(rows, row =>
        {
            Assert.Equal(row["R_measured_specular_included"], new SurfaceReflection(1).ToMeasured(row["R_internal"]), 6e-11);
            Assert.Equal(row["R_measured_specular_excluded"], new SurfaceReflection(0).ToMeasured(row["R_internal"]), 6e-11);
        });
    }

    [Fact]
    public void Shares_are_those_of_a_binder_of_index_1_5()
    {
        var row = PublishedTable.Rows("fresnel.csv").Single(row => row["n"] == 1.5);
        Assert.InRange(row["normal_incidence_external_k1"] - SurfaceReflection.External, -5e-7, 5e-7);

        // Theory gives 0.596; physics literature rounds it to 0.60, which is what the engine uses.
        Assert.InRange(row["diffuse_internal_k2"] - SurfaceReflection.Internal, -5e-3, 5e-3);
    }

    [Fact]
    public void Both_directions_are_inverse() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1]).Sample((e, r) =>
            Assert.Equal(r, new SurfaceReflection(e).ToInternal(new SurfaceReflection(e).ToMeasured(r)), 1e-12));

    [Fact]
    public void Gloss_is_never_lighter_than_matt() =>
        Gen.Double[0, 1].Sample(r => Assert.True(Finish.Gloss.Surface().ToMeasured(r) <= Finish.Satin.Surface().ToMeasured(r)
            && Finish.Satin.Surface().ToMeasured(r) <= Finish.Matt.Surface().ToMeasured(r)));

    [Fact]
    public void Slope_is_the_derivative() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0.01, 0.99]).Sample((e, r) =>
        {
            var surface = new SurfaceReflection(e);
            Assert.Equal((surface.ToMeasured(r + 1e-6) - surface.ToMeasured(r - 1e-6)) / 2e-6, surface.Slope(r), 1e-6);
        });
}
