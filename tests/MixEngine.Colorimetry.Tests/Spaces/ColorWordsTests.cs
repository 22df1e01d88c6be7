using CsCheck;

namespace MixEngine.Colorimetry.Tests;

/// <summary>Everyday names of screen colours (common practice, no source).</summary>
public class ColorWordsTests
{
    [Theory]
    [InlineData("#000000", "black")]
    [InlineData("#ffffff", "white")]
    [InlineData("#808080", "grey")]
    [InlineData("#303030", "dark grey")]
    [InlineData("#c8c8c8", "light grey")]
    [InlineData("#ff0000", "bright red")]
    [InlineData("#ffff00", "very light bright yellow")]
    [InlineData("#0000ff", "dark bright blue")]
    [InlineData("#008080", "turquoise")]
    [InlineData("#5a3a22", "dark dull brown")]
    [InlineData("#7a7a20", "olive")]
    [InlineData("#ffc0cb", "very light dull pink")]
    [InlineData("#203a24", "dark dull green")]
    [InlineData("#3a2a5a", "dark purple")]
    [InlineData("#d0d8d0", "greenish light grey")]
    [InlineData("#000080", "very dark bright blue")]
    [InlineData("#4b0082", "dark bright purple")]
    [InlineData("#efe6d8", "yellowish white")]
    public void Describes_a_colour_as_people_would(string hex, string words) =>
        Assert.Equal(words, ColorWords.Describe(HexColor.Parse(hex).ToLab()));

    [Fact]
    public void Has_words_for_every_colour() =>
        Gen.Select(Gen.Double[-20, 130], Gen.Double[-200, 200], Gen.Double[-200, 200]).Sample((l, a, b) =>
        {
            var words = ColorWords.Describe(new Lab(l, a, b));
            Assert.Matches("^[a-z]+( [a-z]+){0,4}$", words);
        });

    [Fact]
    public void Light_and_dark_are_as_the_lightness_says() =>
        Arbitrary.Lab.Sample(color =>
        {
            var words = ColorWords.Describe(color).Split(' ');
            Assert.False(words.Contains("dark") && color.L >= 40);
            Assert.False(words.Contains("light") && color.L < 65);
        });

    [Fact]
    public void No_numbers_no_words() =>
        Assert.Throws<ArgumentException>(() => ColorWords.Describe(new Lab(50, double.NaN, 0)));
}
