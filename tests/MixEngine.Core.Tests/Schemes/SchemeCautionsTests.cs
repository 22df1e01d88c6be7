namespace MixEngine.Core.Tests;

public class SchemeCautionsTests
{
    private static readonly Scheme Brushed = new() { Name = "brushed", Figures = [] };

    [Theory]
    [InlineData("PR108", "cadmium")]
    [InlineData("P.R. 108", "cadmium")]
    [InlineData("py34", "lead and chromate")]
    [InlineData("PB28", "cobalt")]
    [InlineData("PW1", "lead")]
    public void Pigments_known_by_their_Colour_Index_name_are_warned_of(string pigment, string hazard) =>
        Assert.Contains(SchemeCautions.Of(Brushed, [InventedPaints.Kelp with { Pigments = [pigment] }]), caution => caution.About.StartsWith(hazard, StringComparison.Ordinal) && caution.About.Contains("kelp", StringComparison.Ordinal));

    [Fact]
    public void Harmless_dust_is_warned_of_only_where_dust_arises()
    {
        Paint[] white = [InventedPaints.GullWhite with { Pigments = ["PW6"] }];
        Assert.Empty(SchemeCautions.Of(Brushed, white));
        Assert.Contains(SchemeCautions.Of(Brushed with { Sanded = true }, white), caution => caution.About.Contains("gull white", StringComparison.Ordinal));
    }

    [Fact]
    public void Spraying_sanding_and_solvents_are_warned_of()
    {
        var scheme = Brushed with { Sanded = true, Sprayed = [SprayedCoat.Primer], Varnish = new Varnish(Finish.Matt, Solvent: true) };
        Assert.Equal(["spraying", "sanding", "solvent varnish"], SchemeCautions.Of(scheme, []).Select(caution => caution.About));
    }

    [Fact]
    public void Unstated_pigments_are_said_to_be_unknown() =>
        Assert.Contains(SchemeCautions.Of(Brushed, [InventedPaints.Kelp]), caution => caution.About.Contains("not stated", StringComparison.Ordinal));
}
