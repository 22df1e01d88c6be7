using CsCheck;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Tests.Mapping;

public sealed class RecipeTextTests
{
    private static readonly string[] Names = ["tarred rope", "kelp", "30 fathoms", "red + blue", "7", "a:b"];

    [Theory]
    [InlineData("kelp", "1 kelp")]
    [InlineData("2 tarred rope + 1 kelp", "2 tarred rope|1 kelp")]
    [InlineData("2 tarred rope+kelp", "2 tarred rope|1 kelp")]
    [InlineData("  2   tarred rope  +  1 kelp  ", "2 tarred rope|1 kelp")]
    [InlineData("2:1 tarred rope : kelp", "2 tarred rope|1 kelp")]
    [InlineData("2 : 0.5 tarred rope:kelp", "2 tarred rope|0.5 kelp")]
    [InlineData("2 tarred rope + 1 kelp (66.7 % + 33.3 %)", "2 tarred rope|1 kelp")]
    [InlineData("1 kelp (100%)", "1 kelp")]
    [InlineData(".5 kelp + 1. tarred rope", "0.5 kelp|1 tarred rope")]
    [InlineData("30 fathoms", "1 30 fathoms")]
    [InlineData("2 30 fathoms + kelp", "2 30 fathoms|1 kelp")]
    [InlineData("3 fathoms", "3 fathoms")]
    [InlineData("red + blue", "1 red + blue")]
    [InlineData("2 \"red + blue\" + kelp", "2 red + blue|1 kelp")]
    [InlineData("2:1 \"a:b\" : kelp", "2 a:b|1 kelp")]
    [InlineData("7", "1 7")]
    [InlineData("7 7", "7 7")]
    [InlineData("kelp (dark)", "1 kelp (dark)")]
    public void Recipes_are_read_as_people_write_them(string text, string expected) => Assert.Equal(expected, Read(text));

    [Fact]
    public void A_recipe_that_is_written_out_is_read_back()
    {
        var amount = Gen.Int[1, 80_000].Select(thousandths => thousandths / 1000m);
        Gen.Select(amount, Gen.OneOf([.. Names.Select(name => Gen.Const(name))])).Array[1, 6].Sample(parts =>
        {
            var text = string.Join(" + ", parts.Select(part => FormattableString.Invariant($"{part.Item1} \"{part.Item2}\"")));
            return Read(text) == string.Join('|', parts.Select(part => FormattableString.Invariant($"{(double)part.Item1} {part.Item2}")));
        });
    }

    [Fact]
    public void Whatever_is_written_is_a_recipe_or_has_a_fault()
    {
        var piece = Gen.OneOf(Gen.OneOf([.. Names.Select(name => Gen.Const(name))]), Gen.String[0, 6], Gen.OneOf([.. "+:.,-\"()% 0123456789٣½".Select(c => Gen.Const(c.ToString()))]));
        piece.Array[0, 30].Select(pieces => string.Concat(pieces)).Sample(text =>
        {
            var violations = new Violations();
            var read = RecipeText.Read(text, Names.Contains, "recipe.text", violations);
            return read is null == violations.Any && (read is null || (read.Count > 0 && read.All(part => double.IsFinite(part.Parts) && part.Parts >= 0)));
        });
    }

    [Fact]
    public void Long_texts_that_almost_end_in_shares_are_read_quickly()
    {
        var violations = new Violations();
        Assert.NotNull(RecipeText.Read("kelp (" + string.Concat(Enumerable.Repeat("1 % + ", 300)) + "x)", Names.Contains, "f", violations) ?? [("", 0)]);
        Assert.NotNull(RecipeText.Read("kelp " + new string(' ', 1900) + "(1 %", Names.Contains, "f", violations) ?? [("", 0)]);
    }

    private static string Read(string text)
    {
        var violations = new Violations();
        var read = RecipeText.Read(text, Names.Contains, "recipe.text", violations);
        Assert.Empty(violations.All);
        return string.Join('|', read!.Select(part => FormattableString.Invariant($"{part.Parts} {part.Name}")));
    }
}
