using System.Globalization;

namespace MixEngine.Colorimetry.Tests;

/// <summary>Every table says what it is and where it comes from, and is what it says.</summary>
public class PassportTests
{
    private static readonly string[] Kinds = ["published", "computed", "library value"];

    public static TheoryData<string> Tables() => [.. Everything().Select(table => table.Name)];

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_table_has_a_passport(string name)
    {
        var table = Everything().Single(table => table.Name == name);
        Assert.All(["title", "source", "unit", "grid", "kind"], key => Assert.NotEmpty(table.Passport[key]));
        Assert.Contains(table.Passport["kind"], Kinds);
        Assert.NotEmpty(table.Rows);
    }

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_spectral_table_has_the_grid_of_its_passport(string name)
    {
        var table = Everything().Single(table => table.Name == name);
        if (table.Passport["grid"] == "none")
        {
            Assert.NotEqual("nm", table.Header[0]);
            return;
        }

        // "380-780 nm, every 5 nm": wavelengths run down the first column, or along the header.
        var numbers = table.Passport["grid"].Split(' ', '-').Select(word => int.TryParse(word, out var n) ? n : -1).Where(n => n > 0).ToArray();
        var nm = table.Header[0] == "nm"
            ? table.Column("nm")
            : [.. table.Header.Where(cell => char.IsAsciiDigit(cell[0])).Select(cell => double.Parse(cell, CultureInfo.InvariantCulture))];
        var expected = Enumerable.Range(0, (numbers[1] - numbers[0]) / numbers[2] + 1).Select(i => (double)(numbers[0] + i * numbers[2]));
        Assert.Equal(expected, nm);
    }

    [Fact]
    public void The_engine_carries_its_four_tables() =>
        Assert.Equal(4, PublishedTable.AllIn(typeof(Xyz).Assembly).Count());

    private static IEnumerable<PublishedTable> Everything() =>
        PublishedTable.AllIn(typeof(Xyz).Assembly).Concat(PublishedTable.AllIn(typeof(PassportTests).Assembly));
}
