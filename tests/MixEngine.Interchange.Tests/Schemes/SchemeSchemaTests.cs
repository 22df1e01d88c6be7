using System.Text.Json.Nodes;
using Json.Schema;
using Tomlyn;

namespace MixEngine.Interchange.Tests;

/// <summary>The published schema, held against the reader by an independent validator (JsonSchema.Net).</summary>
public class SchemeSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(SchemeReader.JsonSchema);

    [Fact]
    public void It_accepts_what_the_reader_accepts() => Assert.True(Accepts(SchemeReaderTests.Whole));

    [Theory]
    [InlineData("tolerance = 2.5", "tolerance = \"2.5\"")]
    [InlineData("tolerance = 2.5", "tolerence = 2.5")]
    [InlineData("count = 10", "count = 0")]
    [InlineData("role = \"glaze\"", "role = \"glace\"")]
    [InlineData("steps = 6", "steps = 1")]
    [InlineData("share-percent = 40", "share-percent = 140")]
    [InlineData("spread = 30", "like = \"cloak\"")]
    public void It_refuses_what_the_reader_refuses(string there, string instead)
    {
        var text = SchemeReaderTests.Whole.Replace(there, instead, StringComparison.Ordinal);
        Assert.False(SchemeReader.Read(text).Succeeded);
        Assert.False(Accepts(text));
    }

    [Theory]
    [InlineData("", "$")]
    [InlineData("[[figure]]\n", "figure")]
    [InlineData("[[figure]]\n[[figure.area]]\n", "area")]
    public void It_has_the_keys_that_the_reader_knows(string headings, string table)
    {
        // The reader lists its keys where it meets one that it does not know.
        var fault = SchemeReader.Read(headings + "no-such-key = 1").Faults.Single(f => f.Field.EndsWith("no-such-key", StringComparison.Ordinal));
        var known = fault.Expected.Split(": ")[1].Split(", ").ToHashSet();
        var root = JsonNode.Parse(SchemeReader.JsonSchema)!;
        var published = (table == "$" ? root : root["$defs"]![table])!["properties"]!.AsObject().Select(p => p.Key).ToHashSet();
        Assert.Equal(known.Order(), published.Order());
    }

    private static bool Accepts(string toml) => Schema.Evaluate(
        System.Text.Json.JsonSerializer.SerializeToElement(TomlSerializer.Deserialize<Dictionary<string, object>>(toml))).IsValid;
}
