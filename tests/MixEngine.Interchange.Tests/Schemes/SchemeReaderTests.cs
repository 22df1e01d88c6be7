using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Interchange.Tests;

public class SchemeReaderTests
{
    internal const string Whole = """
        name = "Tide-folk of the north quay"
        shelf = ["own", "lent"]
        buy-from = "shop"
        on-table = ["tarred rope", "gull white"]
        light = "D50"
        observer = 10
        primer = "black"
        varnish = "matt"
        varnish-thinner = "solvent"
        sprayed = ["primer", "varnish"]
        sanded = true
        tolerance = 2.5
        paints-per-mix = 2
        drops = 8
        surplus-percent = 30
        chroma-at-most = 40
        height-mm = 28

        [[figure]]
        name = "net casters"
        count = 10

        [[figure.area]]
        name = "cloak"
        paints = ["tarred rope", "kelp", "2 kelp + 1 sea lettuce"]
        steps = 6
        share-percent = 40
        where = "the oiled cloak"

        [[figure.area]]
        name = "skin"
        target = "lab:62,14,18"
        spread = 30
        chroma-at-most = 60

        [[figure.area]]
        name = "spray on the hem"
        role = "glaze"
        paints = "tide pool"
        medium-parts = 6
        coats = 3
        over = "cloak"

        [[figure]]
        name = "lantern bearer"
        size = "mounted"

        [[figure.area]]
        name = "cape"
        like = "net casters / cloak"
        but = "a little duller and darker"

        [[figure.area]]
        name = "seams"
        role = "lining"
        target = "#1a1410"
        """;

    [Fact]
    public void A_whole_scheme_is_read()
    {
        var scheme = Read(Whole);

        Assert.Equal("Tide-folk of the north quay", scheme.Name);
        Assert.Equal(["own", "lent"], scheme.Shelves);
        Assert.Equal(("shop", "black", 2.5, 2, 8, 0.3, 40), (scheme.BuyFrom, scheme.Primer, scheme.Tolerance, scheme.PaintsPerMix, scheme.Drops, scheme.Surplus, scheme.ChromaAtMost));
        Assert.Equal(new ViewingCondition(Illuminant.D50, Observer.Degree10), scheme.Condition);
        Assert.Equal(new Varnish(Finish.Matt, Solvent: true), scheme.Varnish);
        Assert.Equal([SprayedCoat.Primer, SprayedCoat.Varnish], scheme.Sprayed);
        Assert.True(scheme.Sanded);

        var casters = scheme.Figures[0];
        Assert.Equal(10, casters.Count);
        Assert.Equal(FigureSurface.OnFoot(28), casters.SurfaceCm2);
        Assert.Equal(["cloak", "skin", "spray on the hem"], casters.Areas.Select(area => area.Name));
        Assert.Equal(new[] { "tarred rope", "kelp", "2 kelp + 1 sea lettuce" }, Assert.IsType<AreaAim.Paints>(casters.Areas[0].Aim).Recipes);
        Assert.Equal((6, 0.4, 60.0), (casters.Areas[0].Steps, casters.Areas[0].Share, casters.Areas[1].ChromaAtMost));
        Assert.Equal((AreaRole.Glaze, 3, 6, "cloak"), (casters.Areas[2].Role, casters.Areas[2].Coats, casters.Areas[2].Medium, casters.Areas[2].Over));

        // A Lab holds under the scheme's own light.
        var skin = Assert.Single(Assert.IsType<AreaAim.Colors>(casters.Areas[1].Aim).Targets);
        Assert.Equal(62, Lab.FromXyz(skin.Xyz, TristimulusWeights.For(scheme.Condition).White).L, 9);

        var cape = Assert.IsType<AreaAim.Like>(scheme.Figures[1].Areas[0].Aim);
        Assert.Equal(("net casters", "cloak"), (cape.Figure, cape.Area));
        Assert.Equal(-5, cape.But!.Lightness);
    }

    [Fact]
    public void A_key_knows_its_line()
    {
        var scheme = Read(Whole);
        Assert.Equal(25, scheme.Figures[0].Areas[0].Lines.Of("paints"));
        Assert.Equal(12, scheme.Lines.Of("tolerance"));
    }

    [Fact]
    public void What_is_left_out_has_its_usual_value()
    {
        var scheme = Read("""
            name = "one"
            [[figure]]
            name = "gull"
            [[figure.area]]
            name = "back"
            target = "#808890"
            """);
        Assert.Equal((Scheme.ConventionalTolerance, Scheme.ConventionalDrops, 3), (scheme.Tolerance, scheme.Drops, scheme.PaintsPerMix));
        Assert.Equal(View.Default, scheme.View);
        var area = scheme.Figures[0].Areas[0];
        Assert.Equal((AreaRole.Layers, 5, Area.ConventionalBaseCoats, 1.0), (area.Role, area.Steps, area.Coats, scheme.Figures[0].ShareOf(area)));
    }

    [Theory]
    [InlineData("tolerance = 2.5", "tolerance = \"2.5\"", "tolerance", "without quotation marks")]
    [InlineData("tolerance = 2.5", "tolerance = 0", "tolerance", "0.1 to 50")]
    [InlineData("tolerance = 2.5", "tolerance = nan", "tolerance", "0.1 to 50")]
    [InlineData("tolerance = 2.5", "tolerence = 2.5", "tolerence", "Did you mean tolerance?")]
    [InlineData("light = \"D50\"", "light = \"D51\"", "light", "D65")]
    [InlineData("count = 10", "count = 1.5", "figure \"net casters\" / count", "whole number")]
    [InlineData("count = 10", "count = 0", "figure \"net casters\" / count", "from 1")]
    [InlineData("\"lab:62,14,18\"", "\"lab:62,14\"", "figure \"net casters\" / area \"skin\" / target", "lab:40,-12,20")]
    [InlineData("\"lab:62,14,18\"", "\"#12345\"", "figure \"net casters\" / area \"skin\" / target", "six digits")]
    [InlineData("\"lab:62,14,18\"", "[\"#123456\", 5]", "figure \"net casters\" / area \"skin\" / target", "quotation marks")]
    [InlineData("role = \"glaze\"", "role = \"glace\"", "figure \"net casters\" / area \"spray on the hem\" / role", "layers, single, glaze, lining")]
    [InlineData("over = \"cloak\"", "over = \"cloke\"", "figure \"net casters\" / area \"spray on the hem\" / over", "\"cloak\"")]
    [InlineData("like = \"net casters / cloak\"", "like = \"net casters / cloke\"", "figure \"lantern bearer\" / area \"cape\" / like", "\"cloak\"")]
    [InlineData("like = \"net casters / cloak\"", "like = \"cape\"", "figure \"lantern bearer\" / area \"cape\" / like", "circle")]
    [InlineData("a little duller", "a bit duller", "figure \"lantern bearer\" / area \"cape\" / but", "\"a little\"")]
    [InlineData("share-percent = 40", "share-percent = 140", "figure \"net casters\" / area \"cloak\" / share-percent", "100")]
    [InlineData("where = \"the oiled cloak\"", "where = [\"a\", \"b\"]", "figure \"net casters\" / area \"cloak\" / where", "6 steps")]
    [InlineData("steps = 6", "steps = 1", "figure \"net casters\" / area \"cloak\" / steps", "2 to 64")]
    [InlineData("[\"primer\", \"varnish\"]", "[\"everything\"]", "sprayed", "primer, paint, varnish")]
    public void A_fault_names_its_line_its_key_and_what_to_do(string there, string instead, string key, string says)
    {
        var text = Whole.Replace(there, instead, StringComparison.Ordinal);
        var result = SchemeReader.Read(text);
        Assert.Null(result.Table);
        var fault = Assert.Single(result.Faults, f => f.Field == key);
        Assert.Equal(text[..text.IndexOf(instead, StringComparison.Ordinal)].Count(c => c == '\n') + 1, fault.Line);
        Assert.Contains(says, fault.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("target = #5a6b3c", 6)]
    [InlineData("target = 5a6b3c", 6)]
    [InlineData("target \"#5a6b3c\"", 6)]
    [InlineData("name = \"a second one\"\ntarget = \"#5a6b3c\"", 6)]
    public void What_is_no_TOML_is_told_with_its_line(string last, int line)
    {
        var result = SchemeReader.Read($"name = \"one\"\n[[figure]]\nname = \"gull\"\n[[figure.area]]\nname = \"back\"\n{last}\n");
        Assert.Null(result.Table);
        Assert.Contains(result.Faults, fault => fault.Line == line && fault.Field == "notation");
    }

    [Fact]
    public void All_faults_are_told_at_once()
    {
        var text = Whole.Replace("tolerance = 2.5", "tolerance = 0", StringComparison.Ordinal).Replace("count = 10", "count = 0", StringComparison.Ordinal);
        Assert.Equal([12, 21], SchemeReader.Read(text).Faults.Select(fault => fault.Line));
    }

    [Fact]
    public void One_way_of_saying_the_colour_is_needed_and_only_one()
    {
        const string start = "name = \"one\"\n[[figure]]\nname = \"gull\"\n[[figure.area]]\nname = \"back\"\n";
        Assert.Contains("exactly one", Given.OnlyFault(SchemeReader.Read(start)).ToString(), StringComparison.Ordinal);
        Assert.Contains("exactly one", Given.OnlyFault(SchemeReader.Read(start + "target = \"#808890\"\npaints = [\"a\", \"b\"]")).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_circle_of_references_over_two_figures_is_told()
    {
        var result = SchemeReader.Read("""
            name = "one"
            [[figure]]
            name = "a"
            [[figure.area]]
            name = "x"
            like = "b / y"
            [[figure]]
            name = "b"
            [[figure.area]]
            name = "y"
            like = "a / x"
            """);
        Assert.Equal([6, 11], result.Faults.Select(fault => fault.Line));
    }

    [Theory]
    [InlineData("")]
    [InlineData("\0")]
    [InlineData("= = =\n[[[")]
    [InlineData("figure = 3\nname = \"x\"")]
    [InlineData("figure = [1, 2]\nname = \"x\"")]
    [InlineData("name = 1979-05-27\n[figure]\narea = {}")]
    public void Nonsense_is_refused_and_never_thrown(string text)
    {
        var result = SchemeReader.Read(text);
        Assert.Null(result.Table);
        Assert.NotEmpty(result.Faults);
    }

    private static Scheme Read(string text)
    {
        var result = SchemeReader.Read(text);
        Assert.True(result.Succeeded, string.Join("\n", result.Faults));
        return result.Table;
    }
}
