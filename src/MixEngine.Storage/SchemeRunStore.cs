using System.Globalization;
using System.Text.Json;

namespace MixEngine.Storage;

/// <summary>Scheme runs. A run once kept is never changed. Safe to use from several threads.</summary>
public sealed class SchemeRunStore(Database database, TimeProvider clock)
{
    /// <summary>Most runs in a list.</summary>
    public const int MostListed = 200;

    /// <summary>Keeps a run and gives it its number.</summary>
    public SchemeRun Keep(Owner owner, string name, string engineVersion, string digest, SchemeRunContent content)
    {
        var made = clock.GetUtcNow();
        using var session = Session.Writing(database);
        var run = session.Number(
            """
            INSERT INTO scheme_run (owner, name, made, engine_version, digest, request, shelves, answer)
            VALUES (@owner, @name, @made, @version, @digest, @request, @shelves, @answer) RETURNING run_key
            """,
            ("@owner", owner.Name), ("@name", name), ("@made", Written(made)), ("@version", engineVersion), ("@digest", digest),
            ("@request", content.Request), ("@shelves", JsonSerializer.Serialize(content.Shelves)), ("@answer", content.Answer));
        session.Commit();
        return new SchemeRun(run, name, made, engineVersion, digest);
    }

    /// <summary>The latest runs, the latest first.</summary>
    public IReadOnlyList<SchemeRun> List(Owner owner)
    {
        using var session = Session.Asking(database);
        return session.Rows($"SELECT {Columns} FROM scheme_run WHERE owner = @owner ORDER BY run_key DESC LIMIT {MostListed}", Read, ("@owner", owner.Name));
    }

    /// <summary>A run with its content; null where there is none of that number.</summary>
    public (SchemeRun Run, SchemeRunContent Content)? Find(Owner owner, long run)
    {
        using var session = Session.Asking(database);
        var rows = session.Rows(
            $"SELECT {Columns}, request, shelves, answer FROM scheme_run WHERE owner = @owner AND run_key = @run",
            row => (Read(row), new SchemeRunContent(row.Bytes(5), JsonSerializer.Deserialize<Dictionary<string, StoredShelf>>(row.Text(6))!, row.Bytes(7))),
            ("@owner", owner.Name), ("@run", run));
        return rows.Count > 0 ? rows[0] : null;
    }

    private const string Columns = "run_key, name, made, engine_version, digest";

    private static SchemeRun Read(Row row) =>
        new(row.Long(0), row.Text(1), DateTimeOffset.Parse(row.Text(2), CultureInfo.InvariantCulture), row.Text(3), row.Text(4));

    private static string Written(DateTimeOffset moment) => moment.ToString("O", CultureInfo.InvariantCulture);
}
