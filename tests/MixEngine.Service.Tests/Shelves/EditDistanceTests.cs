using CsCheck;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Tests.Shelves;

public sealed class EditDistanceTests
{
    [Theory]
    [InlineData("kelp", "kelp", 0)]
    [InlineData("ke", "kelp", 0)]
    [InlineData("kelq", "kelp", 1)]
    [InlineData("klep", "kelp", 1)]
    [InlineData("sea letuce", "sea lettuce", 1)]
    [InlineData("xkelp", "kelp", 1)]
    [InlineData("abc", "xyz", 3)]
    [InlineData("abc", "", 3)]
    public void Letters_added_dropped_replaced_and_swapped_are_counted(string word, string of, int expected) =>
        Assert.Equal(expected, EditDistance.ToBeginning(word, of));

    [Fact]
    public void It_is_never_more_than_the_word_has_letters_and_zero_for_every_beginning() =>
        Gen.Select(Gen.String[0, 12], Gen.String[0, 12]).Sample((word, rest) =>
            EditDistance.ToBeginning(word, rest) <= word.Length && EditDistance.ToBeginning(word, word + rest) == 0);
}
