using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>A connection within one transaction, undone unless committed.</summary>
internal sealed class Session : IDisposable
{
    private readonly SqliteConnection _connection;
    private readonly SqliteTransaction _transaction;

    private Session(SqliteConnection connection, bool writing)
    {
        _connection = connection;
        _transaction = connection.BeginTransaction(deferred: !writing);
    }

    /// <summary>Sees the database as it is now, throughout.</summary>
    public static Session Reading(Database database) => new(database.Connect(), writing: false);

    /// <summary>Alone in writing: it waits for other writers before it reads anything.</summary>
    public static Session Writing(Database database) => new(database.Connect(), writing: true);

    public void Commit() => _transaction.Commit();

    public void Dispose()
    {
        _transaction.Dispose();
        _connection.Dispose();
    }

    /// <summary>Runs a statement.</summary>
    public void Run(string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        using var command = Command(sql, parameters);
        command.ExecuteNonQuery();
    }

    /// <summary>The first value that a statement returns.</summary>
    public long Number(string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        using var command = Command(sql, parameters);
        return (long)command.ExecuteScalar()!;
    }

    /// <summary>All rows of a query.</summary>
    public List<T> Rows<T>(string sql, Func<SqliteDataReader, T> read, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        using var command = Command(sql, parameters);
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(read(reader));
        }

        return rows;
    }

    private SqliteCommand Command(string sql, ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        var command = _connection.CreateCommand();
        command.Transaction = _transaction;
        command.CommandText = sql;
        foreach (var (name, value) in parameters)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }
}
