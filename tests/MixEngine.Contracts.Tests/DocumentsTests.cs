namespace MixEngine.Contracts.Tests;

/// <summary>The committed documents say what the protos say. After a change of these: MIXENGINE_APPROVE=1, then read the difference.</summary>
public class DocumentsTests
{
    [Fact]
    public void The_page_of_JSON_names_is_that_of_the_protos() => Matches("JSON.md", JsonNames.Write());

    [Fact]
    public void The_OpenAPI_document_is_that_of_the_protos() => Matches("openapi.json", OpenApiDocument.Write());

    private static void Matches(string name, string made)
    {
        var committed = Path.Combine(Repository.Root, "protos", name);
        if (Environment.GetEnvironmentVariable("MIXENGINE_APPROVE") == "1")
        {
            File.WriteAllText(committed, made);
        }

        Assert.True(
            File.Exists(committed) && File.ReadAllText(committed).ReplaceLineEndings("\n") == made,
            $"protos/{name} is not what the protos say. Make it anew: MIXENGINE_APPROVE=1 dotnet test --project tests/MixEngine.Contracts.Tests, and read the difference.");
    }
}
