using System.CommandLine;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>The options that every command has.</summary>
internal static class CommonOptions
{
    public static readonly Option<string> Shelf = new("--shelf")
    {
        Description = "The shelf whose paints are meant",
        HelpName = "NAME",
        DefaultValueFactory = _ => "home",
    };

    public static readonly Option<string> Light = new("--light")
    {
        Description = "Light to judge under: A, D50, D55, D65, D75, FL2, FL11, LED-B1 to LED-B5 [default: D65]",
        HelpName = "NAME",
    };

    public static readonly Option<int?> Observer = OptionOf.Whole("--observer", "DEGREES", "The CIE observer: 2 or 10 [default: 2]", least: 1, example: "10");

    public static readonly Option<string> Finish = new("--finish")
    {
        Description = "Seen in this finish: matt, satin or gloss [default: as each paint was measured]",
        HelpName = "WORD",
    };

    public static readonly Option<bool> Reflectance = new("--reflectance")
    {
        Description = "With --json or --csv: also the reflectance of each colour",
    };

    public static readonly Option<string> Server = new("--server")
    {
        Description = "Ask the service there: unix:/path, http://host:port or host:port [default: your own, started by itself]",
        HelpName = "ADDRESS",
    };

    public static readonly Option<double?> Timeout = OptionOf.Number("--timeout", "SECONDS", "Give up when there is no answer by then", least: 0.001, example: "10");

    public static readonly Option<bool> Json = new("--json") { Description = "The answer as protobuf JSON" };

    public static readonly Option<bool> Csv = new("--csv") { Description = "The answer as a CSV table" };

    public static IEnumerable<Option> All
    {
        get
        {
            Option[] all = [Shelf, Light, Observer, Finish, Reflectance, Server, Timeout, Json, Csv];
            foreach (Option option in all)
            {
                option.Recursive = true;
            }
            return all;
        }
    }

    public static View ViewOf(ParseResult parsed) => new()
    {
        Illuminant = parsed.GetValue(Light) ?? "",
        ObserverDegrees = parsed.GetValue(Observer) ?? 0,
        Finish = parsed.GetValue(Finish) ?? "",
        WithReflectance = parsed.GetValue(Reflectance),
    };

    public static string ShelfOf(ParseResult parsed) => parsed.GetValue(Shelf)!;
}
