using System.CommandLine;
using Google.Protobuf;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Reads a table of paints onto the shelf.</summary>
internal static class ShelfImportCommand
{
    /// <summary>The contract's own limit: told before the file is read, not after.</summary>
    private const long LargestFile = 16L << 20;

    private static readonly Argument<string> File = new("file") { Description = "The table of paints: CSV, or another format that the service reads; - for standard input" };

    private static readonly Option<bool> DryRun = new("--dry-run") { Description = "Say what would change, and change nothing" };

    public static Command Create()
    {
        var command = new Command("import", "Read a table of paints onto the shelf: all of it, or nothing and every fault found") { File, DryRun };
        command.SetAction((parsed, cancel) =>
        {
            ImportShelfRequest request = Request(parsed);
            return parsed.AnswerAsync((service, options) => service.Shelves.ImportShelfAsync(request, options), Form, cancel);
        });
        return command;
    }

    public static Form<ImportShelfResponse> Form { get; } = new(ShelfPage.Write, ShelfTable.Of);

    private static ImportShelfRequest Request(ParseResult parsed)
    {
        string path = parsed.GetValue(File)!;
        return new ImportShelfRequest
        {
            Shelf = CommonOptions.ShelfOf(parsed),
            FileName = NameOf(path),
            Content = ContentOf(path, "table of paints", "my-paints.csv"),
            DryRun = parsed.GetValue(DryRun),
        };
    }

    public static string NameOf(string path) => path == "-" ? "standard input" : Path.GetFileName(path);

    /// <summary>A file's bytes, or those of standard input for "-".</summary>
    /// <param name="path">The file.</param>
    /// <param name="what">What it should hold, such as "table of paints".</param>
    /// <param name="example">A name such a file may have.</param>
    /// <exception cref="Refusal">It cannot be read, or is too large.</exception>
    public static ByteString ContentOf(string path, string what, string example)
    {
        if (path == "-")
        {
            return ReadAll(Console.OpenStandardInput(), "standard input");
        }
        try
        {
            using FileStream file = System.IO.File.OpenRead(path);
            return ReadAll(file, path);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new Refusal($"There is no file {path}{NearestFile(path)}. Name a {what}, such as {example}.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Refusal(Directory.Exists(path)
                ? $"{path} is a folder. Name a {what} in it, such as {Path.Combine(path, example)}."
                : $"{path} cannot be read: {e.Message}");
        }
    }

    private static ByteString ReadAll(Stream stream, string name)
    {
        using var bytes = new MemoryStream();
        var buffer = new byte[1 << 16];
        for (int read; (read = stream.Read(buffer)) > 0;)
        {
            bytes.Write(buffer, 0, read);
            if (bytes.Length > LargestFile)
            {
                string size = stream.CanSeek ? $"has {stream.Length} bytes" : $"has more than {LargestFile} bytes";
                throw new Refusal($"{name} {size}, and a table may have {LargestFile} (16 MiB). Split it into several tables and import each.");
            }
        }
        return ByteString.CopyFrom(bytes.GetBuffer(), 0, (int)bytes.Length);
    }

    /// <summary>The file that may have been meant: same name but for case or ending.</summary>
    private static string NearestFile(string path)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        if (!Directory.Exists(folder))
        {
            return $", nor a folder {folder}";
        }
        string wanted = Path.GetFileNameWithoutExtension(path);
        string? near = Directory.EnumerateFiles(folder).Select(Path.GetFileName)
            .FirstOrDefault(name => string.Equals(Path.GetFileNameWithoutExtension(name), wanted, StringComparison.OrdinalIgnoreCase));
        return near is null ? "" : $" (there is {near})";
    }
}
