using System.Data;
using System.Data.Common;
using System.Diagnostics.CodeAnalysis;

namespace MixEngine.Storage.Tests;

/// <summary>A database whose nth statement fails, a commit counted as one: either before it does anything, or, for a commit, after it is done and nobody hears of it.</summary>
internal sealed class FailingDatabase(Database inner, int failing, bool afterCommit = false) : Database(inner.Place)
{
    private int _statements;

    /// <summary>Whether it came to the failure.</summary>
    public bool Failed { get; private set; }

    internal override string? ClaimStatement => inner.ClaimStatement;

    public override DatabaseTrouble? TroubleOf(DbException fault) => inner.TroubleOf(fault);

    public override void Dispose()
    {
    }

    internal override DbConnection Connect() => new Connection(inner.Connect(), this);

    internal override DbTransaction BeginReading(DbConnection connection) => new Transaction(inner.BeginReading(((Connection)connection).Inner), this);

    internal override DbTransaction BeginWriting(DbConnection connection) => new Transaction(inner.BeginWriting(((Connection)connection).Inner), this);

    internal override bool IsBrokenConnection(DbException fault) => false;

    internal override string ToStored(string text) => inner.ToStored(text);

    internal override string FromStored(string text) => inner.FromStored(text);

    private bool IsFailing()
    {
        Failed |= ++_statements == failing;
        return _statements == failing;
    }

    private void Next()
    {
        if (IsFailing())
        {
            throw new Fault();
        }
    }

    internal sealed class Fault() : DbException("Failed on purpose.");

    private sealed class Connection(DbConnection inner, FailingDatabase database) : DbConnection
    {
        public DbConnection Inner => inner;

        [AllowNull]
        public override string ConnectionString { get => inner.ConnectionString; set => inner.ConnectionString = value; }

        public override string Database => inner.Database;

        public override string DataSource => inner.DataSource;

        public override string ServerVersion => inner.ServerVersion;

        public override ConnectionState State => inner.State;

        public override void ChangeDatabase(string databaseName) => inner.ChangeDatabase(databaseName);

        public override void Close() => inner.Close();

        public override void Open() => inner.Open();

        protected override DbTransaction BeginDbTransaction(IsolationLevel isolationLevel) => throw new NotSupportedException();

        protected override DbCommand CreateDbCommand() => new Command(inner.CreateCommand(), database);

        protected override void Dispose(bool disposing) => inner.Dispose();
    }

    private sealed class Transaction(DbTransaction inner, FailingDatabase database) : DbTransaction
    {
        public DbTransaction Inner => inner;

        public override IsolationLevel IsolationLevel => inner.IsolationLevel;

        protected override DbConnection? DbConnection => inner.Connection;

        public override void Commit()
        {
            var fails = database.IsFailing();
            if (!fails || database.AfterCommit)
            {
                inner.Commit();
            }

            if (fails)
            {
                throw new Fault();
            }
        }

        public override void Rollback() => inner.Rollback();

        protected override void Dispose(bool disposing) => inner.Dispose();
    }

    private bool AfterCommit { get; } = afterCommit;

    private sealed class Command(DbCommand inner, FailingDatabase database) : DbCommand
    {
        [AllowNull]
        public override string CommandText { get => inner.CommandText; set => inner.CommandText = value; }

        public override int CommandTimeout { get => inner.CommandTimeout; set => inner.CommandTimeout = value; }

        public override CommandType CommandType { get => inner.CommandType; set => inner.CommandType = value; }

        public override bool DesignTimeVisible { get; set; }

        public override UpdateRowSource UpdatedRowSource { get => inner.UpdatedRowSource; set => inner.UpdatedRowSource = value; }

        protected override DbConnection? DbConnection { get => inner.Connection; set => inner.Connection = value; }

        protected override DbParameterCollection DbParameterCollection => inner.Parameters;

        protected override DbTransaction? DbTransaction { get => inner.Transaction; set => inner.Transaction = (value as Transaction)?.Inner; }

        public override void Cancel() => inner.Cancel();

        public override int ExecuteNonQuery()
        {
            database.Next();
            return inner.ExecuteNonQuery();
        }

        public override object? ExecuteScalar()
        {
            database.Next();
            return inner.ExecuteScalar();
        }

        public override void Prepare() => inner.Prepare();

        protected override DbParameter CreateDbParameter() => inner.CreateParameter();

        protected override DbDataReader ExecuteDbDataReader(CommandBehavior behavior)
        {
            database.Next();
            return inner.ExecuteReader(behavior);
        }

        protected override void Dispose(bool disposing) => inner.Dispose();
    }
}
