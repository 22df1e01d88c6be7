using MixEngine.Storage;

namespace MixEngine.Service.Options;

/// <summary>Where what the user has entered is kept.</summary>
public sealed class DataOptions
{
    /// <summary>The folder of the database. It is made where there is none, for this user alone.</summary>
    public required string Directory { get; init; }

    /// <summary>The database of PostgreSQL to use instead of a file in that folder. Holds a password: never to be shown. Null: none.</summary>
    public string? Postgres { get; init; }

    /// <summary>The database's file, where it is one.</summary>
    public string DatabasePath => Path.Combine(Directory, "mixengine.db");

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (File.Exists(Directory))
        {
            yield return new OptionFault("data", $"'{Directory}' is a file; name a folder.");
        }

        if (Postgres is not null && PostgresDatabase.FaultOf(Postgres) is { } fault)
        {
            yield return new OptionFault("database", fault);
        }
    }
}
