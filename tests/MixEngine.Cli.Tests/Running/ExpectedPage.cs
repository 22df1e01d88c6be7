using System.Runtime.CompilerServices;

namespace MixEngine.Cli.Tests.Running;

/// <summary>A page as a person has read and approved it. To approve a new one: MIXENGINE_APPROVE=1, then read the difference.</summary>
public static class ExpectedPage
{
    public static void Matches(string name, string actual, [CallerFilePath] string caller = "")
    {
        string source = Path.Combine(Path.GetDirectoryName(caller)!, "Expected", name);
        if (Environment.GetEnvironmentVariable("MIXENGINE_APPROVE") == "1")
        {
            File.WriteAllText(source, actual);
        }
        string expected = Path.Combine(AppContext.BaseDirectory, "Expected", name);
        string approved = File.Exists(expected) ? File.ReadAllText(expected) : "";
        Assert.Equal(approved.ReplaceLineEndings("\n"), actual);
    }
}
