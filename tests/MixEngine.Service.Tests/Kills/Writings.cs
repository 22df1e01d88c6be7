using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Kills;

/// <summary>Imports of three bottles each, with colour and pigments.</summary>
internal sealed class ShelfImports(int round) : Writing("shelf imports", round)
{
    public override async Task WriteAsync(ChannelBase channel, int number)
    {
        var rows = string.Concat("abc".Select(letter => FormattableString.Invariant($"{letter} {number},#{number % 200 + 16:x2}4a2b,PY42 PBk7\n")));
        await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { Shelf = Round, FileName = "a.csv", Content = ByteString.CopyFromUtf8("name,hex,pigments\n" + rows) });
    }

    public override async Task<IReadOnlyList<(int, bool)>> FindAsync(ChannelBase channel)
    {
        try
        {
            var table = await new V1.Shelves.ShelvesClient(channel).ExportShelfAsync(new ExportShelfRequest { Shelf = Round, Format = "csv" });
            var rows = table.Content.ToStringUtf8().Split('\n').Where(line => line.Length > 2 && line[1] == ' ');
            return [.. rows.GroupBy(row => int.Parse(row[2..row.IndexOf(',', StringComparison.Ordinal)], CultureInfo.InvariantCulture))
                .Select(group => (group.Key, group.Count() == 3 && group.All(row => row.Contains("4a2b", StringComparison.Ordinal) && row.Contains("PBk7", StringComparison.Ordinal))))];
        }
        catch (RpcException fault) when (fault.StatusCode == StatusCode.NotFound)
        {
            return [];
        }
    }
}

/// <summary>Imports of two swatches each, of two paints.</summary>
internal sealed class SwatchImports(int round) : Writing("swatch imports", round)
{
    private string Shelf => $"{Round}-swatches";

    public override async Task PrepareAsync(ChannelBase channel) => await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(
        new ImportShelfRequest { Shelf = Shelf, FileName = "a.csv", Content = ByteString.CopyFromUtf8("name,hex\nkelp,#3f4a2b\nchalk cliff,#f2efe6\n") });

    public override async Task WriteAsync(ChannelBase channel, int number)
    {
        var rows = FormattableString.Invariant($"a-{number},1 kelp + {number + 1} chalk cliff,#8a9b7c\nb-{number},2 kelp + {2 * number + 3} chalk cliff,#7a8b6c\n");
        await new Swatches.SwatchesClient(channel).ImportSwatchesAsync(new ImportSwatchesRequest { Shelf = Shelf, FileName = "a.csv", Content = ByteString.CopyFromUtf8("sample_id,of,hex\n" + rows) });
    }

    public override async Task<IReadOnlyList<(int, bool)>> FindAsync(ChannelBase channel)
    {
        var list = await new Swatches.SwatchesClient(channel).ListSwatchesAsync(new ListSwatchesRequest { Shelf = Shelf, PageSize = 1000 });
        return [.. list.Swatches.Select(fit => fit.Swatch).GroupBy(swatch => int.Parse(swatch.Id[2..], CultureInfo.InvariantCulture))
            .Select(group => (group.Key, group.Count() == 2 && group.All(swatch => swatch.Recipe.Text.Contains(" + ", StringComparison.Ordinal))))];
    }
}

/// <summary>Items of a batch: an answer that was seen is there again as it was, and not solved again.</summary>
internal sealed class BatchItems(int round) : Writing("batch items", round)
{
    private readonly Dictionary<int, BatchAnswer> _seen = [];
    private AsyncDuplexStreamingCall<SolveRequest, SolveResponse>? _call;

    public override bool MayBeRepeated => false;

    public override async Task PrepareAsync(ChannelBase channel)
    {
        _call = new Batch.BatchClient(channel).Solve();
        await _call.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = Round, Shelf = "home" } });
        await _call.ResponseStream.MoveNext();
    }

    public override async Task WriteAsync(ChannelBase channel, int number)
    {
        var color = new ColorInput { Text = FormattableString.Invariant($"lab:{number % 90 + 5},3,4") };
        var item = new BatchItem { Key = number.ToString(CultureInfo.InvariantCulture), Words = new WordsRequest { Color = color } };
        await _call!.RequestStream.WriteAsync(new SolveRequest { Item = item });
        while (await _call.ResponseStream.MoveNext())
        {
            if (_call.ResponseStream.Current.Answer is { } answer)
            {
                _seen[number] = answer;
                return;
            }
        }

        throw new RpcException(new Status(StatusCode.Unavailable, "The stream ended."));
    }

    public override async Task<IReadOnlyList<(int, bool)>> FindAsync(ChannelBase channel)
    {
        _call?.Dispose();
        using var call = new Batch.BatchClient(channel).Solve();
        await call.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = Round, Shelf = "home" } });
        await call.RequestStream.WriteAsync(new SolveRequest { Close = new CloseBatch() });
        await call.RequestStream.CompleteAsync();
        List<(int, bool)> found = [];
        while (await call.ResponseStream.MoveNext())
        {
            if (call.ResponseStream.Current.Answer is { } answer)
            {
                var number = int.Parse(answer.Key, CultureInfo.InvariantCulture);
                var again = answer.Kept;
                answer.Kept = false;
                found.Add((number, again && answer.Words is not null && (!_seen.TryGetValue(number, out var before) || before.Equals(answer))));
            }
        }

        return found;
    }
}

/// <summary>Schemes that are solved and kept.</summary>
internal sealed class SchemeRuns(int round) : Writing("scheme runs", round)
{
    public override async Task WriteAsync(ChannelBase channel, int number)
    {
        var text = FormattableString.Invariant($"name = \"{Round} {number}\"\nshelf = \"home\"\n[[figure]]\nname = \"f\"\n[[figure.area]]\nname = \"coat\"\npaints = [\"tarred rope\", \"kelp\"]\nsteps = 3\n");
        using var call = new V1.Schemes.SchemesClient(channel).RunScheme(new RunSchemeRequest { Text = text, RequestId = FormattableString.Invariant($"{Round}-{number}") });
        while (await call.ResponseStream.MoveNext())
        {
            if (call.ResponseStream.Current.Summary is not null)
            {
                return;
            }
        }
    }

    public override async Task<IReadOnlyList<(int, bool)>> FindAsync(ChannelBase channel)
    {
        var client = new V1.Schemes.SchemesClient(channel);
        List<(int, bool)> found = [];
        foreach (var run in (await client.ListSchemeRunsAsync(new ListSchemeRunsRequest())).Runs.Where(run => run.Name.StartsWith(Round + " ", StringComparison.Ordinal)))
        {
            var whole = await client.GetSchemeRunAsync(new GetSchemeRunRequest { Run = run.Run });
            found.Add((int.Parse(run.Name.Split(' ')[1], CultureInfo.InvariantCulture), whole.Result.Areas is [{ Steps.Count: 3 }] && whole.Text.Contains(run.Name, StringComparison.Ordinal)));
        }

        return found;
    }
}

/// <summary>Mixes of two bottles that are noted.</summary>
internal sealed class LoggedMixes(int round) : Writing("logged mixes", round)
{
    public override async Task WriteAsync(ChannelBase channel, int number)
    {
        var mix = new MadeMix { Notes = FormattableString.Invariant($"{Round} {number}"), Parts = { new MadePart { Paint = "kelp", Drops = number + 1 }, new MadePart { Paint = "tarred rope", Drops = 2 } } };
        await new V1.Schemes.SchemesClient(channel).LogMixAsync(new LogMixRequest { Mix = mix, RequestId = FormattableString.Invariant($"{Round}-{number}") });
    }

    public override async Task<IReadOnlyList<(int, bool)>> FindAsync(ChannelBase channel)
    {
        var list = await new V1.Schemes.SchemesClient(channel).ListMixesAsync(new ListMixesRequest());
        return [.. list.Mixes.Where(mix => mix.Notes.StartsWith(Round + " ", StringComparison.Ordinal)).Select(mix =>
        {
            var number = int.Parse(mix.Notes.Split(' ')[1], CultureInfo.InvariantCulture);
            return (number, mix.Parts.Count == 2 && mix.Parts[0].Drops == number + 1);
        })];
    }
}
