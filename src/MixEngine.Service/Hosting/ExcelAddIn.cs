using MixEngine.Service.Options;

namespace MixEngine.Service.Hosting;

/// <summary>Serves the built add-in for Excel.</summary>
internal static class ExcelAddIn
{
    private static readonly Dictionary<string, string> Types = new()
    {
        [".html"] = "text/html; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".json"] = "application/json",
        [".xml"] = "text/xml; charset=utf-8",
        [".png"] = "image/png",
    };

    /// <summary>Serves the files of the folder, and no others: only names that were listed are looked up.</summary>
    public static void Map(WebApplication app, ExcelOptions options)
    {
        if (options.Folder is null)
        {
            return;
        }

        foreach (var path in Directory.EnumerateFiles(options.Folder).Where(path => Types.ContainsKey(Path.GetExtension(path))))
        {
            app.MapGet("/excel/" + Path.GetFileName(path), () => Results.File(Path.GetFullPath(path), Types[Path.GetExtension(path)])).AllowAnonymous();
        }
    }
}
