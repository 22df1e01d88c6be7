using System.Text;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

/// <summary>
/// The structure is that of the CxF3-core schema (ISO 17972-1) as the classes generated from it in the public colour-cxf project show it
/// (Object, ColorValues, ReflectanceSpectrum with StartWL, CustomSpectrum with SpectralPoint, ColorSpecification with TristimulusSpec and MeasurementSpec);
/// the values are invented.
/// </summary>
public class CxfTests
{
    private const string File = """
        <?xml version="1.0" encoding="UTF-8"?>
        <cc:CxF xmlns:cc="http://colorexchangeformat.com/CxF3-core">
          <cc:FileInformation><cc:Creator>Harbour lab</cc:Creator></cc:FileInformation>
          <cc:Resources>
            <cc:ObjectCollection>
              <cc:Object ObjectType="Standard" Name="kelp" Id="c1">
                <cc:CreationDate>2024-05-03T10:00:00+02:00</cc:CreationDate>
                <cc:Comment>first card</cc:Comment>
                <cc:ColorValues>
                  <cc:ColorCIELab ColorSpecification="CS1"><cc:L>41.2</cc:L><cc:A>-12.5</cc:A><cc:B>20</cc:B></cc:ColorCIELab>
                </cc:ColorValues>
              </cc:Object>
              <cc:Object ObjectType="Standard" Name="tarred rope" Id="c2">
                <cc:CreationDate>2024-05-04T00:00:00</cc:CreationDate>
                <cc:ColorValues>
                  <cc:ColorCIELab ColorSpecification="CS1"><cc:L>20</cc:L><cc:A>0</cc:A><cc:B>0</cc:B></cc:ColorCIELab>
                  <cc:ReflectanceSpectrum ColorSpecification="CS2" StartWL="400">SPECTRUM</cc:ReflectanceSpectrum>
                </cc:ColorValues>
              </cc:Object>
              <cc:Object ObjectType="Target" Name="screen patch" Id="c3">
                <cc:CreationDate>2024-05-04T00:00:00</cc:CreationDate>
                <cc:DeviceColorValues><cc:ColorRGB><cc:R>1</cc:R><cc:G>2</cc:G><cc:B>3</cc:B></cc:ColorRGB></cc:DeviceColorValues>
              </cc:Object>
            </cc:ObjectCollection>
            <cc:ColorSpecificationCollection>
              <cc:ColorSpecification Id="CS1">
                <cc:TristimulusSpec><cc:Illuminant>D65</cc:Illuminant><cc:Observer>10_Degree</cc:Observer><cc:Method>E308_Table5</cc:Method></cc:TristimulusSpec>
                <cc:MeasurementSpec>
                  <cc:MeasurementType>Colorimetric_Reflectance</cc:MeasurementType>
                  <cc:GeometryChoice><cc:SphereGeometry>Specular_Included</cc:SphereGeometry></cc:GeometryChoice>
                  <cc:Backing>white</cc:Backing>
                  <cc:Device><cc:Model>Invented 8</cc:Model></cc:Device>
                </cc:MeasurementSpec>
              </cc:ColorSpecification>
              <cc:ColorSpecification Id="CS2">
                <cc:MeasurementSpec>
                  <cc:MeasurementType>Spectrum_Reflectance</cc:MeasurementType>
                  <cc:GeometryChoice><cc:SingleAngle><cc:SingleAngleConfiguration>Annular</cc:SingleAngleConfiguration><cc:IlluminationAngle>45</cc:IlluminationAngle><cc:MeasurementAngle>0</cc:MeasurementAngle></cc:SingleAngle></cc:GeometryChoice>
                  <cc:WavelengthRange StartWL="400" Increment="10"/>
                </cc:MeasurementSpec>
              </cc:ColorSpecification>
            </cc:ColorSpecificationCollection>
          </cc:Resources>
        </cc:CxF>
        """;

    private static string Plain => File.Replace("SPECTRUM", Spectra.Row(Spectra.Orange, 400, 700, separator: ' '), StringComparison.Ordinal);

    [Fact]
    public void A_plain_file_is_read_with_its_specifications()
    {
        ReadResult<SwatchTable> result = Given.Swatches(Plain);

        SwatchTable table = Given.Read(result);
        Assert.Equal(TableFormat.Cxf, result.Format);
        Assert.Equal(new SwatchRow(6, "c1", "kelp", new LabReading(new Lab(41.2, -12.5, 20), new ViewingCondition(Illuminant.D65, Observer.Degree10)))
        {
            Specular = SpecularMode.Included,
            Backing = SwatchBacking.White,
            Source = SwatchSource.Instrument,
            Date = new DateOnly(2024, 5, 3),
            Note = "first card",
        }, table.Rows[0]);
        SpectrumReading spectrum = Assert.IsType<SpectrumReading>(table.Rows[1].Color);
        Assert.Equal((400, 700, Spectra.Orange(450)), (spectrum.WavelengthsNm[0], spectrum.WavelengthsNm[^1], spectrum.Factors[5]));
        Assert.Equal(SpecularMode.Excluded, table.Rows[1].Specular);
        Assert.Equal([6, 13], table.Rows.Select(r => r.Line));
        Assert.Contains(result.Notes, n => n.Contains("Left out 1 object without"));
    }

    [Theory]
    [InlineData("cc:", "")]
    [InlineData("cc:", "x-1:")]
    public void Any_prefix_will_do(string prefix, string other)
    {
        string text = Plain.Replace("xmlns:cc", other.Length == 0 ? "xmlns" : $"xmlns:{other.TrimEnd(':')}", StringComparison.Ordinal)
            .Replace("<" + prefix, "<" + other, StringComparison.Ordinal).Replace("</" + prefix, "</" + other, StringComparison.Ordinal);

        Assert.Equal(Given.Read(Given.Swatches(Plain)), Given.Read(Given.Swatches(text)));
    }

    [Fact]
    public void Utf_16_and_a_byte_order_mark_will_do()
    {
        string text = Plain.Replace("UTF-8", "UTF-16", StringComparison.Ordinal);
        SwatchTable expected = Given.Read(Given.Swatches(Plain));

        Assert.Equal(expected, Given.Read(Given.Swatches([.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(text)])));
        Assert.Equal(expected, Given.Read(Given.Swatches([.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Plain)])));
    }

    [Fact]
    public void A_document_type_is_refused_before_any_entity_is_expanded()
    {
        string laughs = "<!DOCTYPE lolz [<!ENTITY a \"aaaaaaaaaa\">" + string.Concat(Enumerable.Range(0, 10).Select(i => $"<!ENTITY {(char)('b' + i)} \"{string.Concat(Enumerable.Repeat($"&{(char)('a' + i)};", 10))}\">")) + "]>";
        string hostile = Plain.Replace("<cc:CxF ", laughs + "<cc:CxF ", StringComparison.Ordinal).Replace("first card", "&k;", StringComparison.Ordinal);

        ImportFault fault = Given.OnlyFault(Given.Swatches(hostile));
        Assert.Equal("XML", fault.Field);
        Assert.Contains("DTD", fault.Value);
    }

    [Fact]
    public void An_external_entity_is_never_fetched()
    {
        string secret = Path.GetTempFileName();
        try
        {
            System.IO.File.WriteAllText(secret, "the secret");
            string hostile = Plain.Replace("<cc:CxF ", $"<!DOCTYPE x [<!ENTITY s SYSTEM \"file://{secret}\">]><cc:CxF ", StringComparison.Ordinal).Replace("first card", "&s;", StringComparison.Ordinal);

            ReadResult<SwatchTable> result = Given.Swatches(hostile);
            Assert.DoesNotContain(result.Faults, f => f.ToString().Contains("the secret"));
            Assert.Equal("XML", Given.OnlyFault(result).Field);
        }
        finally
        {
            System.IO.File.Delete(secret);
        }
    }

    [Theory]
    [InlineData("CxF3-core", "CxF2-core", "root element")]
    [InlineData("cc:CxF", "cc:Cxx", "root element")]
    [InlineData("</cc:Resources>", "", "XML")]
    [InlineData("Increment=\"10\"", "", "WavelengthRange")]
    [InlineData("Increment=\"10\"", "Increment=\"-10\"", "WavelengthRange")]
    [InlineData("Increment=\"10\"", "Increment=\"50\"", "ReflectanceSpectrum")]
    [InlineData(">0.05", ">NaN", "400 nm")]
    [InlineData(">0.05", ">1.2", "400 nm")]
    [InlineData("<cc:L>41.2</cc:L>", "", "L")]
    [InlineData("<cc:L>41.2</cc:L>", "<cc:L>410.2</cc:L>", "L")]
    [InlineData("<cc:Illuminant>D65", "<cc:Illuminant>F99", "illuminant")]
    [InlineData("ColorCIELab", "ColorDensity", "ColorValues")]
    [InlineData("Id=\"c2\"", "Id=\"c1\"", "sample_id")]
    public void What_does_not_fit_is_refused(string text, string changed, string field)
    {
        string file = Plain.Replace(text, changed, StringComparison.Ordinal);
        Assert.NotEqual(Plain, file);

        Assert.Equal(field, Given.Swatches(file).Faults[0].Field);
    }

    [Fact]
    public void Depth_is_bounded()
    {
        string deep = Plain.Replace("first card", string.Concat(Enumerable.Repeat("<a>", 100_000)) + string.Concat(Enumerable.Repeat("</a>", 100_000)), StringComparison.Ordinal);

        Assert.Contains("deep", Given.OnlyFault(Given.Swatches(deep)).Value);
    }

    [Fact]
    public void Of_several_measurement_conditions_the_first_is_taken_and_it_is_said()
    {
        string more = Plain.Replace("</cc:ReflectanceSpectrum>", "</cc:ReflectanceSpectrum><cc:ReflectanceSpectrum ColorSpecification=\"CS2\">0.5 0.5</cc:ReflectanceSpectrum>", StringComparison.Ordinal);
        ReadResult<SwatchTable> result = Given.Swatches(more);

        Assert.Equal(31, Assert.IsType<SpectrumReading>(Given.Read(result).Rows[1].Color).Factors.Count);
        Assert.Contains(result.Notes, n => n.Contains("the first was taken"));
    }

    [Fact]
    public void Points_of_a_custom_spectrum_stand_in_any_order_but_not_twice()
    {
        string Points(IEnumerable<int> nm) => string.Concat(nm.Select(n => FormattableString.Invariant($"<cc:SpectralPoint WL=\"{n}.5\">{Spectra.Orange(n)}</cc:SpectralPoint>")));
        string Custom(string points) => System.Text.RegularExpressions.Regex.Replace(Plain, "<cc:ReflectanceSpectrum.*</cc:ReflectanceSpectrum>", $"<cc:CustomSpectrum ColorSpecification=\"CS2\">{points}</cc:CustomSpectrum>");
        int[] grid = [.. Enumerable.Range(0, 20).Select(i => 400 + i * 15)];

        SpectrumReading spectrum = Assert.IsType<SpectrumReading>(Given.Read(Given.Swatches(Custom(Points(grid.Reverse())))).Rows[1].Color);
        Assert.Equal((400.5, Spectra.Orange(400)), (spectrum.WavelengthsNm[0], spectrum.Factors[0]));

        Assert.Equal("CustomSpectrum", Given.OnlyFault(Given.Swatches(Custom(Points([.. grid, 415])))).Field);
    }

    [Fact]
    public void A_screen_colour_is_read_as_hex()
    {
        string rgb = System.Text.RegularExpressions.Regex.Replace(Plain, "<cc:ColorCIELab.*41.2.*</cc:ColorCIELab>", "<cc:ColorSRGB ColorSpecification=\"CS1\"><cc:R>18</cc:R><cc:G>0</cc:G><cc:B>255</cc:B></cc:ColorSRGB>");
        Assert.Equal(Given.Hex("#1200ff"), Given.Read(Given.Swatches(rgb)).Rows[0].Color);

        Assert.Equal("hex", Given.OnlyFault(Given.Swatches(rgb.Replace("<cc:R>18", "<cc:R>1800", StringComparison.Ordinal))).Field);
    }
}
