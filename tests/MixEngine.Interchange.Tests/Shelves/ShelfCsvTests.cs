using System.Text;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

public class ShelfCsvTests
{
    [Fact]
    public void A_plain_table_is_read_with_its_lines()
    {
        ShelfTable shelf = Given.Read(Given.Shelf("""
            name,hex,opacity
            tarred rope,#3b2f2a,opaque

            kelp,4e5a2c,semi-transparent
            """));

        Assert.Equal(
        [
            new ShelfRow(2, "tarred rope") { Color = Given.Hex("#3b2f2a"), Opacity = StatedOpacity.Opaque },
            new ShelfRow(4, "kelp") { Color = Given.Hex("#4e5a2c"), Opacity = StatedOpacity.SemiTransparent },
        ], shelf.Rows);
        Assert.Equal([2, 4], shelf.Rows.Select(r => r.Line));
    }

    [Fact]
    public void Every_column_is_read()
    {
        ShelfRow row = Given.Read(Given.Shelf("""
            Notes,Pigments,ml left,Drops/ml,Sheen,KIND,Series,Opacity,Observer,Illuminant,L*,a*,b*,Paint
            "bought twice,
            once thick","PW6, pbk 7; C.I. Pigment Blue 15:3",12.5,22,Matte,Paint,harbour,Semi Opaque,10,d50,40,-12.5,20,kelp
            """)).Rows.Single();

        Assert.Equal(new ShelfRow(2, "kelp")
        {
            Color = new LabReading(new Lab(40, -12.5, 20), new ViewingCondition(Illuminant.D50, Observer.Degree10)),
            Opacity = StatedOpacity.SemiOpaque,
            Range = "harbour",
            Finish = StatedFinish.Matt,
            DropsPerMl = 22,
            MlLeft = 12.5,
            Pigments = ["PW6", "PBk7", "PB15:3"],
            Notes = "bought twice,\nonce thick",
        }, row);
    }

    [Fact]
    public void Lab_that_states_no_light_is_D65_2_and_says_so()
    {
        ReadResult<ShelfTable> result = Given.Shelf("name,L,a,b\nkelp,0,0,0\n");

        Assert.Equal(new LabReading(new Lab(0, 0, 0), ViewingCondition.Default), Given.Read(result).Rows[0].Color);
        Assert.Contains(result.Notes, n => n.Contains("D65, 2 degrees assumed"));
    }

    [Fact]
    public void A_byte_order_mark_before_a_quoted_first_heading_is_no_part_of_it()
    {
        byte[] bytes = [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes("\"name\",\"hex\"\n\"kelp\",\"#4e5a2c\"\n")];

        Assert.Equal("kelp", Given.Read(Given.Shelf(bytes)).Rows.Single().Name);
    }

    [Theory]
    [InlineData("name;L;a;b\nDark red;31,92;38,58;10\n")]
    [InlineData("name\tL\ta\tb\nDark red\t31,92\t38,58\t10\n")]
    [InlineData("name,L,a,b\nDark red,31.92,38.58,10\n")]
    [InlineData("name,L,a,b\nDark red,\"31,92\",\"38,58\",10\n")]
    [InlineData("sep=;\nname;L;a;b\nDark red;31,92;38,58;10\n")]
    [InlineData("\r\nname;L;a;b\r\nDark red;31,92;38,58;1e1\r\n")]
    public void Decimal_commas_and_points_are_one(string text)
    {
        ShelfRow row = Given.Read(Given.Shelf(text)).Rows.Single();

        Assert.Equal(new Lab(31.92, 38.58, 10), Assert.IsType<LabReading>(row.Color).Lab);
    }

    [Fact]
    public void Forty_one_comma_twenty_never_becomes_4120()
    {
        ShelfRow row = Given.Read(Given.Shelf("name,hex,ml left\nkelp,#4e5a2c,\"41,20\"\n")).Rows.Single();

        Assert.Equal(41.2, row.MlLeft);
    }

    [Theory]
    [InlineData("1,234.5")]
    [InlineData("1.234,5")]
    [InlineData("1 234")]
    [InlineData("1'234")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("1e999")]
    [InlineData("12 ml")]
    [InlineData("0x10")]
    [InlineData("1e")]
    [InlineData("--1")]
    public void What_is_no_plain_number_is_refused_with_its_place(string text)
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf($"name;hex;ml left\nkelp;#4e5a2c;{text}\n"));

        Assert.Equal((2, "ml left", text), (fault.Line, fault.Field, fault.Value));
    }

    [Fact]
    public void An_unquoted_decimal_comma_between_commas_is_refused_not_shifted()
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf("name,L,a,b\nDark red,31,92,38,58,10\n"));

        Assert.Equal(2, fault.Line);
        Assert.Contains("decimal comma", fault.Remedy);
    }

    [Fact]
    public void The_same_heading_twice_is_refused_naming_both_columns()
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf("name,L,a,b,L\nkelp,1,2,3,4\n"));

        Assert.Equal((1, "L"), (fault.Line, fault.Field));
        Assert.Contains("2 and 5", fault.Remedy);
    }

    [Fact]
    public void Two_headings_that_mean_the_same_are_refused_unless_one_is_ours()
    {
        Assert.Contains("range", Given.OnlyFault(Given.Shelf("name,hex,brand,series\nkelp,#4e5a2c,x,y\n")).Expected);

        ReadResult<ShelfTable> result = Given.Shelf("name,hex,brand,range\nkelp,#4e5a2c,x,harbour\n");
        Assert.Equal("harbour", Given.Read(result).Rows[0].Range);
        Assert.Contains(result.Notes, n => n.Contains("Ignored the column brand"));
    }

    [Theory]
    [InlineData("Red", "Red")]
    [InlineData("Red", "  red ")]
    [InlineData("Deep Red", "deep  red")]
    public void Two_paints_of_one_name_are_refused_naming_both_lines(string first, string second)
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf($"name,hex\n{first},#a00\nkelp,#4e5a2c\n{second},#b00\n"));

        Assert.Equal(4, fault.Line);
        Assert.Contains("Line 2", fault.Remedy);
    }

    [Theory]
    [InlineData("000000", "#000000")]
    [InlineData("4E0012", "#4e0012")]
    [InlineData("012345", "#012345")]
    [InlineData("123456", "#123456")]
    [InlineData("#ccc", "#cccccc")]
    [InlineData("ccc", "#cccccc")]
    public void A_hex_stays_text(string written, string meant)
    {
        Assert.Equal(Given.Hex(meant), Given.Read(Given.Shelf($"name,hex\nkelp,{written}\n")).Rows[0].Color);
    }

    [Theory]
    [InlineData("#12")]
    [InlineData("#12345")]
    [InlineData("#ggg")]
    [InlineData("12345")]
    [InlineData("4E+12")]
    [InlineData("0")]
    public void A_broken_hex_is_refused_never_black(string text)
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf($"name,hex\nkelp,{text}\n"));

        Assert.Equal((2, "hex", text), (fault.Line, fault.Field, fault.Value));
    }

    [Fact]
    public void A_name_such_as_10_1_stays_text()
    {
        Assert.Equal("10-1", Given.Read(Given.Shelf("name,hex\n10-1,#4e5a2c\n")).Rows[0].Name);
    }

    [Fact]
    public void Unknown_columns_are_ignored_by_name()
    {
        ReadResult<ShelfTable> result = Given.Shelf("name,hex,opacity,Price,Barcode\nkelp,#4e5a2c,opaque,3,x\n");

        Given.Read(result);
        Assert.Equal(["Ignored the columns Price, Barcode."], result.Notes);
    }

    [Fact]
    public void Every_fault_is_told_and_nothing_is_read()
    {
        ReadResult<ShelfTable> result = Given.Shelf("""
            name,hex,opacity,pigments
            kelp,#4e5a2,opaque,PW6
            ,#4e5a2c,hardly,soot
            tide pool,,clear,
            """);

        Assert.Null(result.Table);
        Assert.Equal([(2, "hex"), (3, "opacity"), (3, "pigments"), (3, "name"), (4, "colour")], result.Faults.Select(f => (f.Line, f.Field)));
    }

    [Fact]
    public void Of_very_many_faults_fifty_are_told_and_the_others_counted()
    {
        ReadResult<ShelfTable> result = Given.Shelf("name,hex\n" + string.Concat(Enumerable.Range(0, 70).Select(i => $"paint {i},nohex\n")));

        Assert.Equal((50, 20), (result.Faults.Count, result.FaultsNotListed));
    }

    [Fact]
    public void Lab_in_part_is_refused()
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf("name,L,a,b\nkelp,40,,20\n"));

        Assert.Equal((2, "a", ""), (fault.Line, fault.Field, fault.Value));
    }

    [Theory]
    [InlineData("name,L,a\nkelp,1,2\n", "b")]
    [InlineData("hex,opacity\n#ccc,opaque\n", "name")]
    [InlineData("name,opacity\nkelp,opaque\n", "colour")]
    [InlineData("", "file")]
    [InlineData("\n \n", "file")]
    public void A_table_without_what_it_needs_is_refused(string text, string field)
    {
        Assert.Equal(field, Given.OnlyFault(Given.Shelf(text)).Field);
    }

    [Fact]
    public void Mediums_and_water_need_no_colour()
    {
        ShelfTable shelf = Given.Read(Given.Shelf("name,hex,kind,opacity\nkelp,#4e5a2c,,opaque\nmatt medium,,medium,\nwater,,Water,\n"));

        Assert.Equal([StatedKind.Paint, StatedKind.Medium, StatedKind.Water], shelf.Rows.Select(r => r.Kind));
        Assert.Null(shelf.Rows[1].Color);
    }

    [Theory]
    [InlineData("name,hex\n\"kelp,#4e5a2c\ntide pool,#2c5a5a\n", 2, "never closed")]
    [InlineData("name,hex\n3\" brush,#4e5a2c\n", 2, "Remove the quotation mark")]
    [InlineData("name,hex\n\"dark\" red,#4e5a2c\n", 2, "double the marks")]
    public void Quotation_marks_astray_are_named(string text, int line, string remedy)
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf(text));

        Assert.Equal(line, fault.Line);
        Assert.Contains(remedy, fault.Remedy);
    }

    [Fact]
    public void Lines_are_counted_through_quoted_line_ends()
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf("name,hex,notes\r\nkelp,#4e5a2c,\"one\r\ntwo\r\nthree\"\r\ntide pool,#2c5,\r\nbuoy,#12,\r\n"));

        Assert.Equal((6, "hex"), (fault.Line, fault.Field));
    }

    [Fact]
    public void Other_encodings_are_read_and_told()
    {
        ReadResult<ShelfTable> latin = Given.Shelf(Encoding.Latin1.GetBytes("name,hex\nSøgrønn,#4e5a2c\n"));
        Assert.Equal("Søgrønn", Given.Read(latin).Rows[0].Name);
        Assert.Contains(latin.Notes, n => n.Contains("Windows-1252"));

        byte[] utf16 = [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes("name,hex\nSøgrønn,#4e5a2c\n")];
        Assert.Equal("Søgrønn", Given.Read(Given.Shelf(utf16)).Rows[0].Name);

        Assert.Contains("UTF-16", Given.OnlyFault(Given.Shelf(Encoding.Unicode.GetBytes("name,hex\n"))).Remedy);
    }

    [Fact]
    public void Control_characters_do_not_reach_a_screen()
    {
        ReadResult<ShelfTable> result = Given.Shelf("name,hex\nke\u001b[31mlp,#4e5a2c\n");

        Assert.Contains("U+001B", Given.OnlyFault(result).Remedy);
        Assert.DoesNotContain('\u001b', result.Faults[0].ToString());
    }

    [Fact]
    public void A_file_above_the_limit_is_refused_with_size_and_limit()
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf(new byte[ImportLimits.ShelfBytes + 1]));

        Assert.Contains("16777217", fault.Value);
        Assert.Contains("16777216", fault.Expected);
    }

    [Fact]
    public void Rows_above_the_limit_are_refused()
    {
        var text = new StringBuilder("name,hex\n");
        for (int i = 0; i <= ImportLimits.Rows; i++)
        {
            text.Append(i).Append(",#ccc\n");
        }

        Assert.Contains("100000", Given.OnlyFault(Given.Shelf(text.ToString())).Expected);
    }

    [Fact]
    public void Cancelling_ends_the_reading()
    {
        Assert.Throws<OperationCanceledException>(() => TableReader.ReadShelf(new MemoryStream([1]), "", null, new CancellationToken(canceled: true)));
    }
}
