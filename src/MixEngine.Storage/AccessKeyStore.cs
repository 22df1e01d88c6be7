using System.Globalization;

namespace MixEngine.Storage;

/// <summary>The access keys of all owners, each with the hash of its secret. Safe to use from several threads.</summary>
public sealed class AccessKeyStore(Database database)
{
    private const string Columns = "key_id, owner, scope, label, created, revoked, expires";

    /// <summary>Keeps a new key.</summary>
    /// <param name="key">What is known of it.</param>
    /// <param name="hash">The hash of its secret.</param>
    public void Add(AccessKey key, byte[] hash)
    {
        using var session = Session.Writing(database);
        session.Run(
            $"INSERT INTO access_key ({Columns}, hash) VALUES (@id, @owner, @scope, @label, @created, @revoked, @expires, @hash)",
            ("@id", key.Id), ("@owner", key.Owner.Name), ("@scope", WordOf(key.Scope)), ("@label", key.Label), ("@created", Written(key.Created)),
            ("@revoked", WrittenOrNull(key.Revoked)), ("@expires", WrittenOrNull(key.Expires)), ("@hash", hash));
        session.Commit();
    }

    /// <summary>A key and the hash of its secret, revoked and expired ones too; null where there is none of that id.</summary>
    public (AccessKey Key, byte[] Hash)? Find(string id)
    {
        using var session = Session.Asking(database);
        var rows = session.Rows($"SELECT {Columns}, hash FROM access_key WHERE key_id = @id", row => (Read(row), row.Bytes(7)), ("@id", id));
        return rows.Count > 0 ? rows[0] : null;
    }

    /// <summary>All keys, revoked and expired ones too, the oldest first.</summary>
    public IReadOnlyList<AccessKey> List()
    {
        using var session = Session.Asking(database);
        return session.Rows($"SELECT {Columns} FROM access_key ORDER BY created, key_id", Read);
    }

    /// <summary>The hashes of the secrets of all keys that were not revoked.</summary>
    public IReadOnlyList<byte[]> Hashes()
    {
        using var session = Session.Asking(database);
        return session.Rows("SELECT hash FROM access_key WHERE revoked IS NULL", row => row.Bytes(0));
    }

    /// <summary>Takes a key its power, from now on.</summary>
    /// <returns>The key as it is then; one that was revoked before stays as it was. Null: there is none of that id.</returns>
    public AccessKey? Revoke(string id, DateTimeOffset now)
    {
        using var session = Session.Writing(database);
        session.Run("UPDATE access_key SET revoked = @now WHERE key_id = @id AND revoked IS NULL", ("@now", Written(now)), ("@id", id));
        var rows = session.Rows($"SELECT {Columns} FROM access_key WHERE key_id = @id", Read, ("@id", id));
        session.Commit();
        return rows.Count > 0 ? rows[0] : null;
    }

    private static AccessKey Read(Row row) => new(
        row.Text(0), Owner.Named(row.Text(1)), Enum.Parse<Scope>(row.Text(2), ignoreCase: true), row.Text(3), Moment(row.Text(4)), MomentOrNull(row, 5), MomentOrNull(row, 6));

    private static string WordOf(Scope scope) => scope.ToString().ToLowerInvariant();

    private static string Written(DateTimeOffset moment) => moment.ToUniversalTime().ToString("O", CultureInfo.InvariantCulture);

    private static string? WrittenOrNull(DateTimeOffset? moment) => moment is { } known ? Written(known) : null;

    private static DateTimeOffset? MomentOrNull(Row row, int column) => row.TextOrNull(column) is { } written ? Moment(written) : null;

    private static DateTimeOffset Moment(string written) => DateTimeOffset.Parse(written, CultureInfo.InvariantCulture);
}
