namespace MixEngine.Service.Options;

/// <summary>Where things are when nobody says otherwise. Clients that start a service follow the same rules.</summary>
public static class DefaultPaths
{
    /// <summary>MIXENGINE_HOME; else mixengine in XDG_DATA_HOME; else mixengine in the system's folder for a user's application data.</summary>
    /// <param name="environment">Gives the value of an environment variable, null where it is not set.</param>
    public static string DataDirectory(Func<string, string?> environment) =>
        Set(environment("MIXENGINE_HOME"))
        ?? (Set(environment("XDG_DATA_HOME")) is { } data ? Path.Combine(data, "mixengine") : null)
        ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "mixengine");

    /// <summary>
    /// MIXENGINE_SOCKET; else, where MIXENGINE_HOME names no data of its own, mixengine/service.sock in XDG_RUNTIME_DIR if that folder
    /// exists; else run/service.sock in the data folder.
    /// </summary>
    /// <param name="environment">Gives the value of an environment variable, null where it is not set.</param>
    /// <param name="dataDirectory">The data folder.</param>
    public static string Socket(Func<string, string?> environment, string dataDirectory) =>
        Set(environment("MIXENGINE_SOCKET"))
        ?? (Set(environment("MIXENGINE_HOME")) is null && Set(environment("XDG_RUNTIME_DIR")) is { } runtime && Directory.Exists(runtime)
            ? Path.Combine(runtime, "mixengine", "service.sock")
            : Path.Combine(dataDirectory, "run", "service.sock"));

    private static string? Set(string? value) => string.IsNullOrWhiteSpace(value) ? null : value;
}
