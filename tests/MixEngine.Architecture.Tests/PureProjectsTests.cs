using System.Text.RegularExpressions;

namespace MixEngine.Architecture.Tests;

/// <summary>Colorimetry, Core, Interchange and Reports depend on their arguments alone.</summary>
public partial class PureProjectsTests
{
    [Theory]
    [InlineData("src/MixEngine.Colorimetry")]
    [InlineData("src/MixEngine.Core")]
    [InlineData("src/MixEngine.Interchange")]
    [InlineData("src/MixEngine.Reports")]
    public void Pure_project_reads_no_file_clock_environment_or_ambient_randomness(string folder)
    {
        var faults =
            from file in Repository.Sources(folder)
            from line in File.ReadLines(file).Select((text, index) => (Text: text, Number: index + 1))
            where Impure().IsMatch(line.Text) && !line.Text.TrimStart().StartsWith("//", StringComparison.Ordinal)
            select $"{Path.GetRelativePath(Repository.Root, file)}:{line.Number}: {line.Text.Trim()} - take it as an argument";
        Assert.Empty(faults);
    }

    [GeneratedRegex(@"\bFile\.(Read|Open|Write|Exists|Create)|\bDirectory\.|DateTime(Offset)?\.(Utc)?Now|Environment\.(Get|Machine|User)|Random\.Shared|new Random\(\)|Guid\.NewGuid|CultureInfo\.CurrentCulture|TimeProvider\.System|Stopwatch\.")]
    private static partial Regex Impure();
}
