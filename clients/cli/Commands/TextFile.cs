using System.Text;

namespace MixEngine.Cli.Commands;

/// <summary>A text file that a command is given.</summary>
internal static class TextFile
{
    private const long LargestFile = 4L << 20;

    public static string Read(string path)
    {
        try
        {
            if (path == "-")
            {
                return Console.In.ReadToEnd();
            }
            var size = new FileInfo(path).Length;
            return size <= LargestFile
                ? File.ReadAllText(path, Encoding.UTF8)
                : throw new Refusal($"{path} has {size} bytes, and a scheme may have {LargestFile} (4 MiB). Split it.");
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new Refusal(Directory.Exists(path) ? $"{path} is a folder. Name a file in it." : $"There is no file {path}. Name a scheme, such as army.toml.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"{path} cannot be read: {e.Message}");
        }
    }
}
