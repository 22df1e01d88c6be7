using System.Xml.Linq;

namespace MixEngine.Architecture.Tests;

/// <summary>Who may know whom. Each row: a project, the projects of ours it may know, and the packages it may use (null: any).</summary>
public class ReferenceRulesTests
{
    public static TheoryData<string, string[], string[]?> Rules => new()
    {
        { "src/MixEngine.Colorimetry", [], [] },
        { "src/MixEngine.Core", ["MixEngine.Colorimetry"], ["MathNet.Numerics"] },
        { "src/MixEngine.Interchange", ["MixEngine.Core", "MixEngine.Colorimetry"], null },
        { "src/MixEngine.Planning", ["MixEngine.Core", "MixEngine.Colorimetry"], ["Google.OrTools", "Google.Protobuf"] },
        { "src/MixEngine.Reports", ["MixEngine.Core", "MixEngine.Colorimetry"], null },
        { "src/MixEngine.Storage", ["MixEngine.Core", "MixEngine.Colorimetry"], null },
        { "src/MixEngine.Contracts", [], null },
        { "src/MixEngine.Client", ["MixEngine.Contracts"], null },
        { "clients/cli", ["MixEngine.Contracts"], null },
    };

    [Theory]
    [MemberData(nameof(Rules))]
    public void Project_knows_only_what_it_may(string folder, string[] projects, string[]? packages)
    {
        var path = Path.Combine(Repository.Root, folder);
        if (!Directory.Exists(path))
        {
            Assert.Skip($"{folder} does not exist yet.");
        }

        var project = XDocument.Load(Directory.EnumerateFiles(path, "*.csproj").Single());

        // A reference that only orders the build links nothing.
        var known = project.Descendants("ProjectReference")
            .Where(reference => (string?)reference.Attribute("ReferenceOutputAssembly") != "false")
            .Select(reference => Path.GetFileNameWithoutExtension(((string)reference.Attribute("Include")!).Replace('\\', '/')));
        Assert.Empty(known.Except(projects));
        if (packages is not null)
        {
            Assert.Empty(project.Descendants("PackageReference").Select(reference => (string)reference.Attribute("Include")!).Except(packages));
        }
    }
}
