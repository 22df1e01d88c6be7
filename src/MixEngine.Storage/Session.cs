using System.Data.Common;
using System.Diagnostics;

namespace MixEngine.Storage;

/// <summary>A connection, and on it one transaction, undone unless committed.</summary>
internal sealed class Session : IDisposable
{
    private static readonly TimeSpan FirstPause = TimeSpan.FromMilliseconds(20), LongestPause = TimeSpan.FromMilliseconds(500);

    private readonly Database _database;
    private readonly Func<DbConnection, DbTransaction>? _begin;
    private readonly long _begun = Stopwatch.GetTimestamp();
    private DbConnection? _connection;
    private DbTransaction? _transaction;
    private bool _answered;

    private Session(Database database, Func<DbConnection, DbTransaction>? begin) => (_database, _begin) = (database, begin);

    /// <summary>For one query alone, which needs no transaction around it.</summary>
    public static Session Asking(Database database) => new(database, null);

    /// <summary>Sees the database as it is now, throughout.</summary>
    public static Session Reading(Database database) => new(database, database.BeginReading);

    /// <summary>May write, beside others that write elsewhere.</summary>
    public static Session Writing(Database database) => new(database, database.BeginWriting);

    /// <summary>Alone with what it claims: it waits for others that claim the same before it reads anything, in this process and in all others.</summary>
    /// <param name="database">The database.</param>
    /// <param name="owner">Whose.</param>
    /// <param name="claim">What is to be changed; equal for equal things.</param>
    public static Session Writing(Database database, Owner owner, string claim)
    {
        var session = new Session(database, database.BeginWriting);
        try
        {
            if (database.ClaimStatement is { } statement)
            {
                session.Run(statement, ("@claim", $"{owner.Name} {claim}"));
            }

            return session;
        }
        catch
        {
            session.Dispose();
            throw;
        }
    }

    public void Commit() => _transaction?.Commit();

    public void Dispose()
    {
        _transaction?.Dispose();
        _connection?.Dispose();
        (_transaction, _connection) = (null, null);
    }

    /// <summary>Runs a statement.</summary>
    public void Run(string sql, params ReadOnlySpan<(string Name, object? Value)> parameters) => Execute(sql, parameters, command => command.ExecuteNonQuery());

    /// <summary>The first value that a statement returns.</summary>
    public long Number(string sql, params ReadOnlySpan<(string Name, object? Value)> parameters) => Execute(sql, parameters, command => (long)command.ExecuteScalar()!);

    /// <summary>All rows of a query.</summary>
    public List<T> Rows<T>(string sql, Func<Row, T> read, params ReadOnlySpan<(string Name, object? Value)> parameters) => Execute(sql, parameters, command =>
    {
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(read(new Row(reader, _database)));
        }

        return rows;
    });

    private T Execute<T>(string sql, ReadOnlySpan<(string Name, object? Value)> parameters, Func<DbCommand, T> execute)
    {
        for (var pause = FirstPause; ; pause = pause * 2 < LongestPause ? pause * 2 : LongestPause)
        {
            try
            {
                using var command = Command(sql, parameters);
                var answer = execute(command);
                _answered = true;
                return answer;
            }
            catch (DbException fault) when (!_answered && _database.IsBrokenConnection(fault) && Stopwatch.GetElapsedTime(_begun) < Database.Patience)
            {
                // Nothing was answered yet, so nothing is lost by beginning again: a server that was restarted has forgotten its connections.
                Dispose();
                Thread.Sleep(pause);
            }
        }
    }

    private DbCommand Command(string sql, ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        _connection ??= _database.Connect();
        _transaction ??= _begin?.Invoke(_connection);
        var command = _connection.CreateCommand();
        command.Transaction = _transaction;
        command.CommandText = sql;
        foreach (var (name, value) in parameters)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.Value = value is string text ? _database.ToStored(text) : value ?? DBNull.Value;
            command.Parameters.Add(parameter);
        }

        return command;
    }
}
