using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using MixEngine.Interchange;

namespace MixEngine.Fuzzing.Tests;

/// <summary>A damaged file is read or refused with a place and a reason; nothing else ever happens.</summary>
public sealed class FileTests
{
    private static readonly byte[][] AllTables = [.. FileSeeds.Tables.Select(seed => seed.Bytes)];

    private static readonly byte[][] Shelves = [.. FileSeeds.Tables.Where(seed => Shelf(seed.Name, seed.Bytes).Succeeded).Select(seed => seed.Bytes)];

    [Fact]
    public void Sound_files_are_read()
    {
        foreach (var (name, bytes) in FileSeeds.Tables)
        {
            Assert.True(Shelf(name, bytes).Succeeded || Swatches(name, bytes).Succeeded, $"{name}: {string.Join('\n', Swatches(name, bytes).Faults)}");
        }

        Assert.Equal("", string.Join('\n', SchemeReader.Read(Encoding.UTF8.GetString(FileSeeds.Schemes[0])).Faults));
    }

    [Fact]
    public void Damaged_shelves_are_read_or_refused() => Try("shelf", Amount.Of(6000, 0.35), (random, _) =>
    {
        var seeds = random.Next(3) == 0 ? AllTables : Shelves;
        var result = Shelf(FileSeeds.Tables[random.Next(FileSeeds.Tables.Count)].Name, Mutation.Of(random, seeds));
        if (!Judged(result))
        {
            return "refused";
        }

        // What was read can be written and read back the same, where its texts can be written at all.
        AssertKept(result.Table!, TableWriter.WriteShelf, stream => TableReader.ReadShelf(stream, "again.csv"));
        return "read";
    });

    [Fact]
    public void Damaged_swatches_are_read_or_refused() => Try("swatches", Amount.Of(6000, 0.35), (random, _) =>
    {
        var result = Swatches(FileSeeds.Tables[random.Next(FileSeeds.Tables.Count)].Name, Mutation.Of(random, AllTables));
        if (!Judged(result))
        {
            return "refused";
        }

        AssertKept(result.Table!, (table, stream, format) => TableWriter.WriteSwatches(table, stream, format), stream => TableReader.ReadSwatches(stream, "again.csv"));
        return "read";
    });

    [Fact]
    public void Damaged_schemes_are_read_or_refused() => Try("scheme", Amount.Of(4000, 0.15), (random, _) =>
        Judged(SchemeReader.Read(Encoding.UTF8.GetString(Mutation.Of(random, FileSeeds.Schemes)))) ? "read" : "refused");

    private static ReadResult<ShelfTable> Shelf(string name, byte[] bytes) => TableReader.ReadShelf(new MemoryStream(bytes), name);

    private static ReadResult<SwatchTable> Swatches(string name, byte[] bytes) => TableReader.ReadSwatches(new MemoryStream(bytes), name);

    // Whether there is a table; if not, there are reasons.
    private static bool Judged<T>(ReadResult<T> result) where T : class
    {
        if (result.Succeeded)
        {
            Assert.Null(Sound.FaultIn(result.Table));
            return true;
        }

        Assert.NotEmpty(result.Faults);
        Assert.All(result.Faults, fault => Assert.DoesNotContain("Exception", fault.ToString()));
        return false;
    }

    private static void AssertKept<T>(T table, Action<T, Stream, TableFormat> write, Func<Stream, ReadResult<T>> read) where T : class
    {
        var stream = new MemoryStream();
        try
        {
            write(table, stream, TableFormat.Csv);
        }
        catch (ArgumentException)
        {
            return;
        }

        stream.Position = 0;
        var again = read(stream);
        Assert.True(again.Succeeded, $"Written, but not read back: {string.Join('\n', again.Faults)}\n{Encoding.UTF8.GetString(stream.ToArray())}");
    }

    private static void Try(string surface, int inputs, Func<Random, int, string> one)
    {
        var outcomes = new ConcurrentDictionary<string, int>();
        Parallel.For(0, inputs, seed =>
        {
            var watch = Stopwatch.StartNew();
            try
            {
                outcomes.AddOrUpdate(one(new Random(seed), seed), 1, (_, n) => n + 1);
            }
            catch (Exception fault)
            {
                throw new InvalidOperationException($"{surface}, seed {seed}: {fault.GetType().Name}: {fault.Message}", fault);
            }

            // Not a matter of speed: these files have a few kilobytes.
            Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), $"{surface}, seed {seed}: {watch.Elapsed}");
        });
        Amount.Report(surface, inputs, outcomes);
    }
}
