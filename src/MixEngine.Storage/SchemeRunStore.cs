using System.Globalization;
using System.Text.Json;

namespace MixEngine.Storage;

/// <summary>Scheme runs. A run once kept is never changed. Safe to use from several threads.</summary>
public sealed class SchemeRunStore(Database database, TimeProvider clock)
{
    /// <summary>Most runs in a list.</summary>
    public const int MostListed = 200;

    /// <summary>Keeps a run and gives it its number, the next of its owner's. One that was kept under the same request's id is not kept again: it is returned.</summary>
    /// <param name="owner">Whose run.</param>
    /// <param name="name">The scheme's name.</param>
    /// <param name="engineVersion">The program that solved it.</param>
    /// <param name="digest">SHA-256 of the answer.</param>
    /// <param name="content">What it was made from, and what came of it.</param>
    /// <param name="request">The request that it answers; null: one that is never sent again.</param>
    /// <exception cref="RequestIdTakenException">The id was another request's.</exception>
    public SchemeRun Keep(Owner owner, string name, string engineVersion, string digest, SchemeRunContent content, RepeatableRequest? request = null)
    {
        var made = clock.GetUtcNow();
        using var session = Session.Writing(database, owner, "runs");
        if (request is not null && OfRequest(session, owner, request) is { } known)
        {
            return known;
        }

        var run = session.Number(
            """
            INSERT INTO scheme_run (owner, run_key, name, made, engine_version, digest, request, shelves, answer, request_id, request_hash)
            VALUES (@owner, (SELECT coalesce(max(run_key), 0) + 1 FROM scheme_run WHERE owner = @owner), @name, @made, @version, @digest, @request, @shelves, @answer, @id, @hash)
            RETURNING run_key
            """,
            ("@owner", owner.Name), ("@name", name), ("@made", Written(made)), ("@version", engineVersion), ("@digest", digest),
            ("@request", content.Request), ("@shelves", JsonSerializer.Serialize(content.Shelves)), ("@answer", content.Answer),
            ("@id", request?.Id), ("@hash", request?.Hash));
        session.Commit();
        return new SchemeRun(run, name, made, engineVersion, digest);
    }

    /// <summary>The run that was kept for a request; null: it was not answered yet.</summary>
    /// <exception cref="RequestIdTakenException">The id was another request's.</exception>
    public SchemeRun? OfRequest(Owner owner, RepeatableRequest request)
    {
        using var session = Session.Asking(database);
        return OfRequest(session, owner, request);
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

    private static SchemeRun? OfRequest(Session session, Owner owner, RepeatableRequest request)
    {
        var rows = session.Rows(
            $"SELECT {Columns}, request_hash FROM scheme_run WHERE owner = @owner AND request_id = @id", row => (Run: Read(row), Hash: row.Bytes(5)), ("@owner", owner.Name), ("@id", request.Id));
        if (rows.Count == 0)
        {
            return null;
        }

        request.ThrowUnlessSame(rows[0].Hash);
        return rows[0].Run;
    }

    private static SchemeRun Read(Row row) =>
        new(row.Long(0), row.Text(1), DateTimeOffset.Parse(row.Text(2), CultureInfo.InvariantCulture), row.Text(3), row.Text(4));

    private static string Written(DateTimeOffset moment) => moment.ToString("O", CultureInfo.InvariantCulture);
}
