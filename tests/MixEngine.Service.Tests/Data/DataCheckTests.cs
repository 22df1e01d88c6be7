using System.Security.Cryptography;
using Google.Protobuf;
using Microsoft.Data.Sqlite;
using MixEngine.Service.Data;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Data;

/// <summary>What lies damaged in a database is named.</summary>
public sealed class DataCheckTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public DataCheckTests()
    {
        Directory.CreateDirectory(_folder.Data);
        using var database = SqliteDatabase.Open(Path);
        new ShelfStore(database).Import(Owner.Home, "tide", [new PaintEvidence { Name = "kelp", Color = new StoredColor("#3c4a2e", "D65", 2), Pigments = ["PY42"] }], dryRun: false);
        new SwatchStore(database).Import(Owner.Home, "tide", [(null, new SwatchEvidence { Parts = [new StoredPart("kelp", 1)], Color = new StoredColor("#3c4a2e", "D65", 2) })], dryRun: false);
        var answer = new SchemeResult { Summary = new SchemeSummary { Name = "skiffs" } };
        new SchemeRunStore(database, TimeProvider.System).Keep(
            Owner.Home, "skiffs", "1", Convert.ToHexStringLower(SHA256.HashData(answer.ToByteArray())), new SchemeRunContent([], new Dictionary<string, StoredShelf>(), answer.ToByteArray()));
        new BatchStore(database, TimeProvider.System).Open(Owner.Home, "night", "tide 1");
        new BatchStore(database, TimeProvider.System).Keep(Owner.Home, "night", [("skiff", [1], new BatchAnswer { Key = "skiff" }.ToByteArray())]);
    }

    private string Path => System.IO.Path.Combine(_folder.Data, "mixengine.db");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_sound_one_has_no_faults() => Assert.Empty(Faults());

    [Theory]
    [InlineData("UPDATE paint_color SET color = 'muddy'", "shelf 'tide' of 'home', paint 'kelp': 'muddy' is no stored colour.")]
    [InlineData("UPDATE swatch SET color = 'muddy'", "shelf 'tide' of 'home', swatch 's1': 'muddy' is no stored colour.")]
    [InlineData("UPDATE swatch SET date = 'Monday'", "shelf 'tide' of 'home'")]
    [InlineData("UPDATE scheme_run SET request = x'ff'", "scheme run 1 of 'home': its bytes are no message of ours")]
    [InlineData("UPDATE scheme_run SET digest = 'ab'", "scheme run 1 of 'home': its answer is not the one that was kept")]
    [InlineData("UPDATE scheme_run SET shelves = '{'", "scheme run 1 of 'home'")]
    [InlineData("INSERT INTO access_key VALUES ('k1', 'home', 'read', 'tablet', x'09', 'Monday', NULL, NULL)", "the access keys: ")]
    [InlineData("UPDATE batch_answer SET answer = x'ff'", "batch 'night' of 'home', answer 'skiff': its bytes are no message of ours")]
    [InlineData("PRAGMA foreign_keys = OFF; DELETE FROM paint", "row 1 of paint_pigment belongs to no paint")]
    public void Each_fault_is_named_by_its_place(string damage, string words)
    {
        using (var connection = new SqliteConnection($"Data Source={Path};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = damage;
            command.ExecuteNonQuery();
        }

        Assert.Contains(Faults(), fault => fault.StartsWith(words, StringComparison.Ordinal));

        // The command says the same, and its exit code tells a script.
        var output = new StringWriter();
        Assert.Equal(2, new DataCommands(new Dictionary<string, string>(), output, TextWriter.Null).Invoke(["check", "--data", _folder.Data]));
        Assert.Contains(words, output.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("UPDATE schema_version SET version = 4711", "newer MixEngine")]
    [InlineData("DROP TABLE schema_version", "another program")]
    [InlineData("PRAGMA foreign_keys = OFF; DELETE FROM paint", "damaged")]
    [InlineData("UPDATE scheme_run SET request = x'ff'", "damaged")]
    public void A_backup_that_cannot_serve_is_refused_and_nothing_is_changed(string damage, string words)
    {
        var backup = System.IO.Path.Combine(_folder.Path, "backup.db");
        Assert.Equal(0, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, TextWriter.Null).Invoke(["backup", backup, "--data", _folder.Data]));
        using (var connection = new SqliteConnection($"Data Source={backup};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = damage;
            command.ExecuteNonQuery();
        }

        var before = File.ReadAllBytes(Path);
        var errors = new StringWriter();
        Assert.Equal(1, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, errors).Invoke(["restore", backup, "--data", _folder.Data, "--socket", _folder.Socket]));
        Assert.Contains(words, errors.ToString(), StringComparison.Ordinal);
        Assert.EndsWith("Name a file that 'data backup' wrote; nothing was touched.", errors.ToString().TrimEnd(), StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(Path));
        Assert.Equal([Path], Directory.GetFiles(_folder.Data));
    }

    [Fact]
    public void A_key_that_was_revoked_since_the_backup_stays_revoked()
    {
        var moment = new DateTimeOffset(2026, 11, 25, 4, 0, 0, TimeSpan.Zero);
        var backup = System.IO.Path.Combine(_folder.Path, "backup.db");
        using (var database = SqliteDatabase.Open(Path))
        {
            var keys = new AccessKeyStore(database);
            keys.Add(new AccessKey("k1", Owner.Home, Scope.Read, "tablet", moment, null), [1]);
            keys.Add(new AccessKey("k2", Owner.Home, Scope.Read, "telephone", moment, null), [2]);
            Assert.Equal(0, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, TextWriter.Null).Invoke(["backup", backup, "--data", _folder.Data]));
            keys.Revoke("k1", moment.AddHours(1));
        }

        var errors = new StringWriter();
        Assert.True(new DataCommands(new Dictionary<string, string>(), TextWriter.Null, errors).Invoke(["restore", backup, "--data", _folder.Data, "--socket", _folder.Socket]) == 0, errors.ToString());
        using var restored = SqliteDatabase.Open(Path);
        Assert.Equal([moment.AddHours(1), null], new AccessKeyStore(restored).List().Select(key => key.Revoked));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_next_restore_removes_what_killed_ones_left_half_written(bool isDamaged)
    {
        var backup = System.IO.Path.Combine(_folder.Path, "backup.db");
        Assert.Equal(0, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, TextWriter.Null).Invoke(["backup", backup, "--data", _folder.Data]));
        string[] left = [".part", ".part-journal", ".before-20260102-030405.part", ".before-20260102-030405.part-journal", ".before-20260102-030405-2.part", ".before-20260102-030405-2.part-wal"];
        string[] others = [".before-20260102-030405", ".before-20260102-030405.partly", ".monday.part"];
        foreach (var ending in left.Concat(others))
        {
            File.WriteAllBytes(Path + ending, File.ReadAllBytes(backup).AsSpan(0, 8192).ToArray());
        }

        var errors = new StringWriter();
        using (SqliteDatabase.Open(Path))
        {
            // Whoever has the database open may be writing them.
            Assert.Equal(1, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, errors).Invoke(["restore", backup, "--data", _folder.Data, "--socket", _folder.Socket]));
            Assert.All(left, ending => Assert.True(File.Exists(Path + ending), ending));
        }

        if (isDamaged)
        {
            File.WriteAllText(Path, "the sea was here");
        }

        errors = new StringWriter();
        Assert.True(new DataCommands(new Dictionary<string, string>(), TextWriter.Null, errors).Invoke(["restore", backup, "--data", _folder.Data, "--socket", _folder.Socket]) == 0, errors.ToString());
        Assert.All(left, ending => Assert.False(File.Exists(Path + ending), ending));
        Assert.All(others, ending => Assert.True(File.Exists(Path + ending), ending));
        using var restored = SqliteDatabase.Open(Path);
        Assert.Empty(DataCheck.Faults(restored));
    }

    [Fact]
    public async Task A_backup_in_the_middle_of_writing_holds_one_moment()
    {
        using var database = SqliteDatabase.Open(Path);
        var (shelves, stop) = (new ShelfStore(database), false);
        var writing = Task.Run(() =>
        {
            // Each import brings both paints of a pair or neither.
            for (var i = 0; !Volatile.Read(ref stop); i++)
            {
                shelves.Import(Owner.Home, "tide", [new PaintEvidence { Name = $"a{i}", Color = new StoredColor("#3c4a2e", "D65", 2) }, new PaintEvidence { Name = $"b{i}", Color = new StoredColor("#3c4a2e", "D65", 2) }], dryRun: false);
            }
        });
        for (var i = 0; i < 5; i++)
        {
            var backup = System.IO.Path.Combine(_folder.Path, $"backup{i}.db");
            Assert.Equal(0, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, TextWriter.Null).Invoke(["backup", backup, "--data", _folder.Data]));
            using var copy = SqliteDatabase.Open(backup);
            var paints = new ShelfStore(copy).Find(Owner.Home, "tide")!.Paints.Select(paint => paint.Id).ToHashSet();
            Assert.All(paints.Where(paint => paint[0] == 'a'), paint => Assert.Contains("b" + paint[1..], paints));
        }

        Volatile.Write(ref stop, true);
        await writing;

        // While a service has it open nothing is put in its place.
        var errors = new StringWriter();
        Assert.Equal(1, new DataCommands(new Dictionary<string, string>(), TextWriter.Null, errors).Invoke(["restore", System.IO.Path.Combine(_folder.Path, "backup0.db"), "--data", _folder.Data, "--socket", _folder.Socket]));
        Assert.Contains("open in another process", errors.ToString(), StringComparison.Ordinal);
    }

    private List<string> Faults()
    {
        using var database = SqliteDatabase.Open(Path);
        return [.. DataCheck.Faults(database)];
    }
}
