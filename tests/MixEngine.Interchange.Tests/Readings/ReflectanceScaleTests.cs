using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

public class ReflectanceScaleTests
{
    private static SpectrumReading Only(ReadResult<SwatchTable> result) => Assert.IsType<SpectrumReading>(Assert.Single(Given.Read(result).Rows).Color);

    private static string Table(params string[] rows) => $"sample_id,{Spectra.Header()}\n" + string.Join('\n', rows.Select((r, i) => $"s{i + 1},{r}"));

    [Fact]
    public void A_black_in_percent_is_never_read_as_white()
    {
        string text = Table(Spectra.Row(Spectra.BlackInPercent));

        ImportFault fault = Given.OnlyFault(Given.Swatches(text));
        Assert.Equal(2, fault.Line);
        Assert.EndsWith("nm", fault.Field);
        Assert.Contains("declare the scale", fault.Remedy);

        SpectrumReading declared = Only(Given.Swatches(text, options: new ReadOptions { Scale = ReflectanceScale.Percent }));
        Assert.All(declared.Factors, f => Assert.InRange(f, 0.008, 0.0141));
    }

    [Fact]
    public void A_declared_scale_wins_over_what_the_values_look_like()
    {
        string percent = $"sample_id,scale,{Spectra.Header()}\ns1,percent,{Spectra.Row(_ => 0.5)}\n";
        Assert.All(Only(Given.Swatches(percent)).Factors, f => Assert.Equal(0.005, f));
        Assert.All(Only(Given.Swatches(percent, options: new ReadOptions { Scale = ReflectanceScale.Fraction })).Factors, f => Assert.Equal(0.005, f));

        ImportFault fault = Given.OnlyFault(Given.Swatches($"sample_id,scale,{Spectra.Header()}\ns1,0-1,{Spectra.Row(_ => 45)}\n"));
        Assert.Equal((2, "380 nm", "45"), (fault.Line, fault.Field, fault.Value));
    }

    [Fact]
    public void One_declaration_holds_for_the_rows_that_have_none()
    {
        SwatchTable table = Given.Read(Given.Swatches($"sample_id,scale,{Spectra.Header()}\na,%,{Spectra.Row(_ => 45)}\nb,,{Spectra.Row(_ => 0.5)}\n"));

        Assert.Equal(0.005, Assert.IsType<SpectrumReading>(table.Rows[1].Color).Factors[0]);
    }

    [Fact]
    public void Fractions_are_told_by_their_values_and_it_is_said()
    {
        ReadResult<SwatchTable> result = Given.Swatches(Table(Spectra.Row(Spectra.Orange)));

        Assert.Equal(Spectra.Orange(380), Only(result).Factors[0]);
        Assert.Contains(result.Notes, n => n.Contains("read as fractions"));
    }

    [Fact]
    public void Percent_is_told_once_for_the_whole_table_so_that_a_black_row_is_percent_too()
    {
        ReadResult<SwatchTable> result = Given.Swatches(Table(Spectra.Row(nm => 100 * Spectra.Orange(nm)), Spectra.Row(Spectra.BlackInPercent)));

        Assert.Contains(result.Notes, n => n.Contains("read as percent"));
        Assert.All(Assert.IsType<SpectrumReading>(Given.Read(result).Rows[1].Color).Factors, f => Assert.InRange(f, 0.008, 0.0141));
    }

    [Fact]
    public void Fractions_beside_percent_are_refused_naming_both_lines()
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches(Table(Spectra.Row(Spectra.Orange), Spectra.Row(_ => 45))));

        Assert.Equal((3, "45"), (fault.Line, fault.Value));
        Assert.Contains("line 2", fault.Remedy);
    }

    [Fact]
    public void Forty_five_where_0_45_is_meant_is_refused_with_its_band()
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches(Table(Spectra.Row(nm => nm == 520 ? 45 : 0.45))));

        Assert.Equal((2, "520 nm", "45"), (fault.Line, fault.Field, fault.Value));
    }

    [Fact]
    public void A_saturated_colour_in_percent_is_no_slipped_point()
    {
        // From below 1 % in the blue to 80 % in the red.
        SpectrumReading red = Only(Given.Swatches(Table(Spectra.Row(nm => Math.Round(0.6 + 80 / (1 + Math.Exp(-(nm - 600) / 12.0)), 3)))));

        Assert.InRange(red.Factors[0], 0.005, 0.0061);
        Assert.InRange(red.Factors[^1], 0.79, 0.81);
    }

    [Theory]
    [InlineData("fraction", "1.02")]
    [InlineData("percent", "102")]
    public void Above_white_is_refused_as_fluorescent_or_mis_scaled(string scale, string value)
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches($"sample_id,scale,{Spectra.Header()}\na,{scale},{Spectra.Row(_ => scale == "percent" ? 50 : 0.5).Replace(scale == "percent" ? "50,50" : "0.5,0.5", value + "," + value, StringComparison.Ordinal)}\n"));

        Assert.Equal(("380 nm", value), (fault.Field, fault.Value));
        Assert.Contains("Fluorescent", fault.Remedy);
    }

    [Fact]
    public void Below_zero_is_refused()
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches(Table(Spectra.Row(nm => nm == 400 ? -0.001 : 0.02))));

        Assert.Equal((2, "400 nm", "-0.001"), (fault.Line, fault.Field, fault.Value));
    }

    [Theory]
    [InlineData("")]
    [InlineData("NaN")]
    [InlineData("n/a")]
    [InlineData("1e999")]
    public void A_band_without_a_number_is_refused_with_row_and_band(string text)
    {
        string row = Spectra.Row(_ => 0.25).Replace("0.25,0.25,0.25", $"0.25,{text},0.25", StringComparison.Ordinal);
        ReadResult<SwatchTable> result = Given.Swatches($"sample_id,{Spectra.Header()}\nfirst,{Spectra.Row(_ => 0.5)}\nsecond,{row}\n");

        ImportFault fault = Given.OnlyFault(result);
        Assert.Equal((3, "390 nm", text), (fault.Line, fault.Field, fault.Value));
    }

    [Fact]
    public void Bands_said_not_to_be_measured_are_left_out_never_zero()
    {
        string every20 = Spectra.Row(nm => nm % 20 == 0 ? 0.25 : -1).Replace("-1", "-", StringComparison.Ordinal);
        SwatchTable table = Given.Read(Given.Swatches($"sample_id,{Spectra.Header()}\na,{Spectra.Row(_ => 0.5)}\nb,{every20}\n"));

        Assert.Equal(18, Assert.IsType<SpectrumReading>(table.Rows[1].Color).WavelengthsNm.Count);

        string gap = Spectra.Row(nm => nm is > 500 and < 600 ? -1 : 0.25).Replace("-1", "-", StringComparison.Ordinal);
        Assert.Contains("between 500 and 600", Given.OnlyFault(Given.Swatches($"sample_id,{Spectra.Header()}\nb,{gap}\n")).Remedy);
    }

    [Theory]
    [InlineData("R500,R510,R520", "500 to 520")]
    [InlineData("R400,R450,R500,R550,R600,R650,R700", "between 400 and 450")]
    public void A_grid_that_cannot_carry_a_colour_is_refused(string header, string remedy)
    {
        string row = string.Join(',', header.Split(',').Select(_ => "0.5"));

        Assert.Contains(remedy, Given.OnlyFault(Given.Swatches($"sample_id,{header}\na,{row}\n")).Remedy);
    }

    [Fact]
    public void Headings_of_bands_are_read_in_many_forms()
    {
        foreach (string form in (string[])["{0}", "R{0}", "nm{0}", "{0} nm", "R_{0}nm", "SPECTRAL_NM{0}", "SPECTRAL_NM_{0}", "SPEC_{0}", "R[{0}]", "Reflectance {0} nm"])
        {
            string header = string.Join(',', Enumerable.Range(0, 16).Select(i => string.Format(System.Globalization.CultureInfo.InvariantCulture, form, 400 + i * 20)));
            SpectrumReading read = Only(Given.Swatches($"sample_id,{header}\na,{Spectra.Row(Spectra.Orange, 400, 700, 20)}\n"));
            Assert.Equal(420, read.WavelengthsNm[1]);
        }
    }

    [Fact]
    public void Bands_may_stand_in_any_order_but_not_twice()
    {
        string[] bands = [.. Spectra.Header().Split(',').Reverse()];
        string[] values = [.. Spectra.Row(Spectra.Orange).Split(',').Reverse()];
        SpectrumReading read = Only(Given.Swatches($"sample_id,{string.Join(',', bands)}\na,{string.Join(',', values)}\n"));
        Assert.Equal((380, Spectra.Orange(380)), (read.WavelengthsNm[0], read.Factors[0]));

        ImportFault fault = Given.OnlyFault(Given.Swatches($"sample_id,{Spectra.Header()},nm400\na,{Spectra.Row(Spectra.Orange)},0.1\n"));
        Assert.Contains("400 nm", fault.Remedy);
    }

    [Fact]
    public void Xyz_on_an_undeclared_scale_of_one_is_refused()
    {
        Assert.Equal("Y", Given.OnlyFault(Given.Swatches("sample_id,X,Y,Z\na,0.2,0.3,0.1\n")).Field);

        XyzReading declared = Assert.IsType<XyzReading>(Given.Read(Given.Swatches("sample_id,X,Y,Z,scale\na,0.25,0.5,0.125,fraction\n")).Rows[0].Color);
        Assert.Equal(new Xyz(25, 50, 12.5), declared.Xyz);

        XyzReading percent = Assert.IsType<XyzReading>(Given.Read(Given.Swatches("sample_id,X,Y,Z\na,25,50,12.5\nb,0.1,0.2,0.3\n")).Rows[1].Color);
        Assert.Equal(0.2, percent.Xyz.Y);
    }

    [Fact]
    public void The_most_exact_of_several_colours_is_taken_and_it_is_said()
    {
        ReadResult<SwatchTable> result = Given.Swatches($"sample_id,hex,L,a,b,{Spectra.Header()}\na,#ccc,80,0,0,{Spectra.Row(_ => 0.5)}\nb,#ccc,80,0,0{new string(',', 36)}\n");

        Assert.Equal([typeof(SpectrumReading), typeof(LabReading)], Given.Read(result).Rows.Select(r => r.Color.GetType()));
        Assert.Contains(result.Notes, n => n.StartsWith("2 rows state more than one colour"));
    }

    [Fact]
    public void The_same_swatch_every_10_and_every_20_nm_is_one_colour()
    {
        SpectrumReading fine = Only(Given.Swatches($"sample_id,{Spectra.Header()}\na,{Spectra.Row(Spectra.Orange)}\n"));
        ReadResult<SwatchTable> coarse = Given.Swatches($"sample_id,{Spectra.Header(380, 720, 20)}\na,{Spectra.Row(Spectra.Orange, 380, 720, 20)}\n");

        TristimulusWeights weights = TristimulusWeights.For(ViewingCondition.D65Degree10);
        Lab LabOf(SpectrumReading spectrum) => Lab.FromXyz(weights.ToXyz(spectrum.Resampled.Reflectance), weights.White);
        Assert.InRange(DeltaE2000.Between(LabOf(fine), LabOf(Only(coarse))), 0.001, 0.3);
        Assert.Contains(coarse.Notes, n => n.Contains("at most 20 nm apart") && n.Contains("repeated in 1 band beyond"));
    }
}
