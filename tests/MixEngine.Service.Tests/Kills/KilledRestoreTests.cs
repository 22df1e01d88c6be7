using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using MixEngine.Service.Data;
using MixEngine.Storage;

namespace MixEngine.Service.Tests.Kills;

/// <summary>
/// A backup is put back, and the program that does so is killed with SIGKILL at any moment: what is there then is wholly the old or wholly the new.
/// MIXENGINE_KILLS says how often (8 where it is not set).
/// </summary>
public sealed class KilledRestoreTests(ITestOutputHelper output) : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private static int Kills => int.TryParse(Environment.GetEnvironmentVariable("MIXENGINE_KILLS"), CultureInfo.InvariantCulture, out var kills) ? kills : 8;

    private string Database => Path.Combine(_folder.Data, "mixengine.db");

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task What_is_there_is_wholly_the_old_or_wholly_the_new(bool oldIsDamaged)
    {
        var (before, backup) = (Path.Combine(_folder.Path, "before.db"), Path.Combine(_folder.Path, "backup.db"));
        Fill(before, "ebb", 900);
        Fill(backup, "tide", 1200);
        var (old, whole, kept) = (ContentOf(before), ContentOf(backup), SHA256.HashData(File.ReadAllBytes(backup)));
        var sea = RandomNumberGenerator.GetBytes(50_000);
        Directory.CreateDirectory(_folder.Data);

        // How long it takes tells where a kill may fall; half of them fall where the database is being written.
        PutOld();
        var start = Stopwatch.GetTimestamp();
        Assert.Equal(0, await RestoreAsync(backup, _ => Task.CompletedTask));
        var all = Stopwatch.GetElapsedTime(start);
        Assert.Equal(whole, ContentOf(Database));
        var random = new Random(2026);
        var (untouched, done, midway) = (0, 0, 0);
        for (var kill = 0; kill < Kills; kill++)
        {
            PutOld();
            var atRandom = kill % 2 == 0;
            await RestoreAsync(backup, async process =>
            {
                if (atRandom)
                {
                    await Task.Delay(all * random.NextDouble());
                }
                else
                {
                    while (!process.HasExited && !Directory.EnumerateFiles(_folder.Data, "*.before-*").Any())
                    {
                        await Task.Yield();
                    }

                    await Task.Delay(random.Next(0, 40));
                }

                process.Kill();
            });

            midway += Directory.EnumerateFiles(_folder.Data, "*.part").Any() || Directory.EnumerateFiles(_folder.Data, "mixengine.db-*").Any() ? 1 : 0;
            Assert.Equal(kept, SHA256.HashData(File.ReadAllBytes(backup)));
            var isOld = oldIsDamaged && File.ReadAllBytes(Database).AsSpan().SequenceEqual(sea);
            if (!isOld)
            {
                var found = ContentOf(Database);
                isOld = !oldIsDamaged && found == old;
                Assert.True(isOld || found == whole, $"Kill {kill}: neither the old nor the new.");
            }

            (untouched, done) = isOld ? (untouched + 1, done) : (untouched, done + 1);

            // What was there before is kept before anything of it goes, and bears its name only when it is whole.
            var asides = Directory.GetFiles(_folder.Data).Where(file => Path.GetExtension(file).StartsWith(".before-", StringComparison.Ordinal)).ToArray();
            Assert.True(isOld || asides.Length == 1, $"Kill {kill}: what was there is nowhere.");
            Assert.All(asides, file => Assert.True(oldIsDamaged ? File.ReadAllBytes(file).AsSpan().SequenceEqual(sea) : ContentOf(file) == old, $"Kill {kill}: {file} is not whole."));
        }

        output.WriteLine(FormattableString.Invariant($"{Kills} kills within {all.TotalSeconds:0.00} s: {untouched} times wholly the old, {done} times wholly the new; {midway} in the middle of writing."));

        // And the next one does it, over whatever the last kill left; of what was only half written nothing stays.
        Assert.Equal(0, await RestoreAsync(backup, _ => Task.CompletedTask));
        Assert.Equal(whole, ContentOf(Database));
        Assert.Empty(Directory.EnumerateFiles(_folder.Data, "*.part*"));

        void PutOld()
        {
            Directory.Delete(_folder.Data, recursive: true);
            Directory.CreateDirectory(_folder.Data);
            File.Copy(before, Database);
            if (oldIsDamaged)
            {
                File.WriteAllBytes(Database, sea);
            }
        }
    }

    private async Task<int> RestoreAsync(string backup, Func<Process, Task> meanwhile)
    {
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "MixEngine.Service"), ["data", "restore", backup, "--data", _folder.Data, "--socket", _folder.Socket])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["TMPDIR"] = _folder.Path;
        using var process = Process.Start(start)!;
        var said = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await meanwhile(process);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(Waiting.Patience);
        var errors = await said.Item2.WaitAsync(Waiting.Patience);
        Assert.True(errors.Length == 0, errors);
        return process.ExitCode;
    }

    private static void Fill(string file, string shelf, int paints)
    {
        using (var database = SqliteDatabase.Open(file))
        {
            new ShelfStore(database).Import(
                Owner.Home,
                shelf,
                [.. Enumerable.Range(0, paints).Select(i => new PaintEvidence { Name = FormattableString.Invariant($"{shelf} {i}"), Notes = new string('~', 300), Pigments = ["PY42", "PBk7"], Color = new StoredColor("#3c4a2e", "D65", 2) })],
                dryRun: false);
        }

        // One file, with nothing beside it.
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        Rows(connection, "PRAGMA wal_checkpoint(TRUNCATE)").ToList();
    }

    // Every row of every table; a file that the check of what is stored finds fault with fails here.
    private static string ContentOf(string file)
    {
        using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            connection.Open();
            Assert.Equal(["ok"], Rows(connection, "PRAGMA integrity_check"));
            Assert.Empty(Rows(connection, "PRAGMA foreign_key_check"));
        }

        using (var database = SqliteDatabase.Open(file))
        {
            Assert.Empty(DataCheck.Faults(database));
        }

        using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            connection.Open();
            var content = new StringBuilder();
            foreach (var table in Rows(connection, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name").ToList())
            {
                content.AppendLine(table).AppendJoin('\n', Rows(connection, $"SELECT * FROM {table}"));
            }

            return content.ToString();
        }
    }

    private static IEnumerable<string> Rows(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return string.Join('|', Enumerable.Range(0, reader.FieldCount).Select(reader.GetValue));
        }
    }
}
