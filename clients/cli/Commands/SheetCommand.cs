using System.CommandLine;
using System.Reflection;
using MixEngine.Cli.Spreadsheet;
using MixEngine.Cli.Terminal;

namespace MixEngine.Cli.Commands;

/// <summary>The functions for spreadsheets: installed, and shown in a workbook.</summary>
internal static class SheetCommand
{
    private const string Extension = "mixengine.oxt";

    private const string Sample = "coast.xlsx";

    private static readonly Option<string?> Office = new("--office") { Description = "The folder of LibreOffice [default: where it usually is]", HelpName = "DIR" };

    private static readonly Argument<string?> File = new("file") { Description = $"Where to [default: {Sample} here]", Arity = ArgumentArity.ZeroOrOne };

    public static Command Create() => new("sheet", "Functions for spreadsheets: MIX.HEX, MIX.RAMP, MIX.MATCH and others in LibreOffice Calc") { Install(), SampleBook() };

    private static Command Install()
    {
        var command = new Command("install", "Install the functions in LibreOffice Calc, for this user") { Office };
        command.SetAction(async (parsed, cancel) =>
        {
            ExtensionManager manager = ExtensionManager.Find(parsed.GetValue(Office));
            string folder = Directory.CreateTempSubdirectory("mixengine-").FullName;
            try
            {
                string package = Path.Combine(folder, Extension);
                Write(Extension, package);
                await manager.AddAsync(package, cancel);
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }

            var page = new Page(Console.Out, Palette.OfStandardOutput);
            page.Line("The functions are installed. Start LibreOffice Calc again, and the service beside it:");
            page.Line("  mixengine serve --http 127.0.0.1:7400");
            page.Line("Then write in a cell, with paints of your shelf:");
            page.Line("  =MIX.HEX(\"2 tarred rope + 1 kelp\")");
            page.Line("A workbook to look at, with invented paints: mixengine demo, then mixengine sheet sample");
            return ExitCode.Answered;
        });
        return command;
    }

    private static Command SampleBook()
    {
        var command = new Command("sample", "Write a workbook with the invented paints of the demo and live formulas") { File };
        command.SetAction(parsed =>
        {
            string path = parsed.GetValue(File) ?? Sample;
            if (Path.Exists(path))
            {
                throw new Refusal($"{path} is there already, and is left as it is. Name another file, or move that one away.");
            }

            Write(Sample, path);
            new Page(Console.Out, Palette.OfStandardOutput).Line($"{path} is written. Its formulas ask for the shelf that mixengine demo fills, of a service started with mixengine serve --http 127.0.0.1:7400.");
            return ExitCode.Answered;
        });
        return command;
    }

    private static void Write(string resource, string path)
    {
        try
        {
            using Stream content = Assembly.GetExecutingAssembly().GetManifestResourceStream(resource)!;
            using FileStream file = System.IO.File.Create(path);
            content.CopyTo(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"{path} cannot be written: {e.Message} Name a file in a folder that you may write to.");
        }
    }
}
