using System.Diagnostics;

namespace MixEngine.Cli.Spreadsheet;

/// <summary>LibreOffice's own program for its extensions.</summary>
internal sealed record ExtensionManager(string Program)
{
    private static readonly string Name = OperatingSystem.IsWindows() ? "unopkg.com" : "unopkg";

    /// <summary>The one of this LibreOffice, else the one on the PATH, else the one where LibreOffice is usually installed.</summary>
    /// <exception cref="Refusal">There is none.</exception>
    public static ExtensionManager Find(string? office)
    {
        string[] folders = office is null ? [.. OnPath(), .. Usual()] : [office, Path.Combine(office, "program")];
        return folders.Select(folder => Path.Combine(folder, Name)).FirstOrDefault(File.Exists) is { } program
            ? new ExtensionManager(program)
            : throw new Refusal(office is null
                ? "LibreOffice is not where it usually is. Install LibreOffice Calc, or name its folder with --office."
                : $"--office: there is no {Name} in {office}. Name the folder in which LibreOffice is installed.");
    }

    /// <summary>Installs an extension, or replaces it.</summary>
    /// <exception cref="Refusal">LibreOffice did not take it, in its own words.</exception>
    public async Task AddAsync(string package, CancellationToken cancel)
    {
        // LibreOffice installs nothing for the administrator alone, but for all users.
        string[] forAll = !OperatingSystem.IsWindows() && Environment.IsPrivilegedProcess ? ["--shared"] : [];
        var start = new ProcessStartInfo(Program, ["add", "--force", .. forAll, package]) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(cancel);
        string errors = await process.StandardError.ReadToEndAsync(cancel);
        await process.WaitForExitAsync(cancel);
        if (process.ExitCode != 0)
        {
            throw new Refusal($"{Program} did not install the functions: {(errors + await output).Trim()}\nClose LibreOffice and try again.");
        }
    }

    private static IEnumerable<string> OnPath() => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);

    private static IEnumerable<string> Usual() =>
    [
        "/usr/lib/libreoffice/program",
        "/usr/lib64/libreoffice/program",
        "/snap/libreoffice/current/lib/libreoffice/program",
        .. Directory.Exists("/opt") ? Directory.GetDirectories("/opt", "libreoffice*").Select(folder => Path.Combine(folder, "program")) : [],
        "/Applications/LibreOffice.app/Contents/MacOS",
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.ProgramFiles), "LibreOffice", "program"),
    ];
}
