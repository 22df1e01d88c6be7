using System.Text;
using System.Text.RegularExpressions;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Json;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Access;

/// <summary>On a file of SQLite.</summary>
public sealed class ForeignKeyTests(SharedService service) : ForeignKeyOverGrpcContract(service), IClassFixture<SharedService>;

/// <summary>On PostgreSQL.</summary>
public sealed class ForeignKeyOnPostgresTests(SharedServiceOnPostgres service) : ForeignKeyOverGrpcContract(service), IClassFixture<SharedServiceOnPostgres>;

/// <summary>Over gRPC.</summary>
public abstract class ForeignKeyOverGrpcContract(SharedService service) : ForeignKeyContract(service)
{
    private protected override IEnumerable<Way> Ways(Place place) =>
        EveryRpc.All.Select(rpc => new Way(rpc, EveryRpc.NameOf(rpc), (requests, key) => EveryRpc.CallAsync(InvokerAt(place), rpc, requests, key)));

    private CallInvoker InvokerAt(Place place) => place switch
    {
        Place.Tls => Service.Invoker,
        Place.Clear => Service.ClearInvoker,
        _ => Service.Service.Channel.CreateCallInvoker(),
    };
}

/// <summary>Every call of the contract, in every way that an entrance has for it, with a foreign key, with one that may only read, with one that holds no longer, and with none.</summary>
public abstract partial class ForeignKeyContract(SharedService service)
{
    // In whatever an owner has that no request of these tests names.
    private const string Hidden = "unseen";

    // What shows all that an owner has of something.
    private static readonly string[] Showing =
    [
        "mixengine.v1.Batch/Solve", "mixengine.v1.Shelves/ListShelves", "mixengine.v1.Shelves/ListPaints", "mixengine.v1.Shelves/ExportShelf", "mixengine.v1.Schemes/ListSchemeRuns",
        "mixengine.v1.Schemes/GetSchemeRun", "mixengine.v1.Schemes/ListMixes", "mixengine.v1.Swatches/ListSwatches", "mixengine.v1.Swatches/ExportSwatches",
    ];

    // What answers everybody the same, whatever they have.
    private static readonly string[] ReadNothing = ["mixengine.v1.Schemes/GetSchemeSchema", "mixengine.v1.Schemes/CheckScheme", "mixengine.v1.Shelves/ImportShelf"];

    private const string Table = """
        name,hex,opacity,notes
        wrack,#3f4a2b,opaque,
        dulse,#6b2f32,semi-transparent,
        unseen eelgrass,#2f6f78,opaque,unseen note
        gull white,#f2efe6,opaque,
        """;

    private const string Scheme = """
        name = "unseen skiffs"
        shelf = "cove"
        tolerance = 8

        [[figure]]
        name = "fishers"

        [[figure.area]]
        name = "coat"
        paints = ["wrack", "gull white"]
        steps = 2
        """;

    private protected SharedService Service => service;

    private static readonly JsonFormatter Json = new(JsonFormatter.Settings.Default.WithTypeRegistry(JsonAnswer.Details));

    [Fact]
    public async Task A_foreign_key_sees_and_changes_nothing_whatever_it_names()
    {
        // A stranger asks while nobody else has anything, and another one, who names what an owner has by now.
        var (before, after, owner) = (service.Key("stranger-1"), service.Key("stranger-2"), service.Key("tide"));
        var run = 1L;
        var alone = await AskAllAsync(before, run);
        run = await FillAsync(owner);
        var kept = Rows("tide");
        var beside = await AskAllAsync(after, run);

        // It is told the very same: nothing in any answer depends on what others have.
        Assert.Equal(Ways(Place.Tls).Select(way => way.Name), beside.Keys);
        Assert.All(beside.Keys, name =>
        {
            Assert.NotEmpty(beside[name]);
            Assert.Equal(alone[name], beside[name]);
            Assert.All(beside[name], answer => Assert.DoesNotContain(Hidden, answer));
        });
        Assert.Equal(kept, Rows("tide"));

        // Nor does one see or change anything who has the very same of their own.
        var namesake = service.Key("namesake");
        Assert.Equal(run, await FillAsync(namesake, "hidden"));
        Assert.All(await AskAllAsync(namesake, run), answers => Assert.All(answers.Value, answer => Assert.DoesNotContain(Hidden, answer)));
        Assert.Equal(kept, Rows("tide"));

        // The same requests do reach what the owner has, when the owner asks: every call is answered, and otherwise than to the stranger.
        var own = await AskAllAsync(owner, run);
        Assert.All(own, answers => Assert.Contains(answers.Value, answer => answer.StartsWith($"{StatusCode.OK} ", StringComparison.Ordinal)));
        Assert.All(Ways(Place.Tls).Where(way => !ReadNothing.Contains(EveryRpc.NameOf(way.Rpc))), way => Assert.NotEqual((way.Name, beside[way.Name]), (way.Name, own[way.Name])));
        var reached = Ways(Place.Tls).Where(way => own[way.Name].Any(answer => answer.Contains(Hidden, StringComparison.Ordinal))).Select(way => EveryRpc.NameOf(way.Rpc)).ToArray();
        Assert.Empty(Showing.Intersect(Ways(Place.Tls).Select(way => EveryRpc.NameOf(way.Rpc))).Except(reached));
        Assert.NotEqual(kept, Rows("tide"));
    }

    [Fact]
    public async Task A_key_that_may_read_changes_nothing_and_without_a_key_that_holds_nobody_is_answered()
    {
        var (write, read, revoked) = (service.Key("reader"), service.Key("reader", "read"), service.Key("reader"));
        Assert.Equal(0, service.Keys("revoke", revoked.Split('_')[1]).ExitCode);
        var expired = service.KeysAt(new ClockAt(DateTimeOffset.UtcNow.AddDays(-2)), "create", "--owner", "reader", "--days", "1").Output.Trim();
        var run = await FillAsync(write);
        var kept = Rows("reader");
        foreach (var way in Ways(Place.Tls))
        {
            foreach (var request in Requests(run).For(way.Rpc))
            {
                if (way.Ask(request, read) is { } asked)
                {
                    Assert.Equal((way.Name, NeededScope.OfRpc(EveryRpc.NameOf(way.Rpc)) > Scope.Read), (way.Name, (await asked).Status == StatusCode.PermissionDenied));
                }
            }
        }

        // A revoked key over the socket, where it is looked at however often it is shown.
        foreach (var (place, key) in new[] { (Place.Tls, null), (Place.Clear, null), (Place.Tls, expired), (Place.Clear, expired), (Place.Socket, revoked) })
        {
            foreach (var way in Ways(place))
            {
                foreach (var request in Requests(run).For(way.Rpc))
                {
                    if (way.Ask(request, key) is { } asked)
                    {
                        var refused = await asked;
                        Assert.Equal((way.Name, place, StatusCode.Unauthenticated), (way.Name, place, refused.Status));
                        Assert.Empty(refused.Messages);
                        Assert.DoesNotContain(Hidden, refused.Words);
                    }
                }
            }
        }

        Assert.Equal(kept, Rows("reader"));
    }

    private protected static GeneratedRequests Requests(long run) => new(
        new Dictionary<string, string[]>
        {
            ["shelf"] = ["cove"], ["other_shelf"] = ["cove"], ["batch"] = ["night"], ["key"] = ["skiff-1"], ["keys"] = ["skiff-1"], ["paint"] = ["wrack"], ["id"] = ["s1"],
            ["file_name"] = ["coast.csv"], ["content"] = ["name,hex\nsand,#c8b48a\n"], ["request_id"] = ["wash-1"], ["illuminant"] = ["D50"], ["kind"] = ["protan"], ["name"] = ["D50"],
            ["varnish"] = ["matt"], ["primer"] = ["grey"], ["PartInput.paint"] = ["wrack", "dulse"], ["RecipeInput.text"] = ["2 wrack + 1 dulse", "1 wrack + 3 gull white"],
            ["ColorInput.text"] = ["#5a6b3c"], ["text"] = [Scheme.Replace(Hidden, "seen", StringComparison.Ordinal)],
        },
        new Dictionary<string, double[]>
        {
            ["run"] = [run], ["parts"] = [1], ["MadePart.drops"] = [1], ["steps"] = [3], ["coats"] = [3], ["medium_parts"] = [2], ["l"] = [40], ["a"] = [-12], ["b"] = [20],
            ["Spectrum.wavelength_nm"] = [500, 600], ["Spectrum.reflectance"] = [0.1, 0.3],
        });

    private async Task<Dictionary<string, string[]>> AskAllAsync(string key, long run)
    {
        var answers = new Dictionary<string, string[]>();
        foreach (var way in Ways(Place.Tls))
        {
            var all = new List<string>();
            foreach (var request in Requests(run).For(way.Rpc))
            {
                if (way.Ask(request, key) is { } asked)
                {
                    all.Add(Comparable(await asked));
                }
            }

            answers[way.Name] = [.. all];
        }

        return answers;
    }

    // Answers without what differs each time: the order of a batch's answers, how far it is, and the moment.
    private protected static string Comparable(EveryRpc.Answer answer)
    {
        var messages = answer.Messages
            .Where(message => message.Descriptor.Oneofs.FirstOrDefault(oneof => oneof.Name == "part")?.Accessor.GetCaseFieldDescriptor(message)?.Name != "progress")
            .Select(message => Json.Format(message))
            .Order(StringComparer.Ordinal);
        return Moment().Replace($"{answer.Status} {answer.Words} {string.Join('\n', messages.Select(Readable))}", "MOMENT");
    }

    // Files are bytes, which JSON shows as base64.
    private static string Readable(string json) => Base64().Replace(json, match => Encoding.UTF8.GetString(Convert.FromBase64String(match.Groups[1].Value)));

    private protected async Task<long> FillAsync(string key, string hidden = Hidden)
    {
        var headers = SharedService.With(key);
        var shelves = new V1.Shelves.ShelvesClient(service.Invoker);
        foreach (var shelf in new[] { "cove", hidden + "-bay" })
        {
            await shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = shelf, FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Table.Replace(Hidden, hidden, StringComparison.Ordinal)) }, headers);
        }

        foreach (var note in new[] { "seen swatch", hidden + " swatch" })
        {
            await new Swatches.SwatchesClient(service.Invoker).AddSwatchAsync(
                new AddSwatchRequest
                {
                    Shelf = "cove",
                    Swatch = new Swatch { Recipe = new RecipeInput { Text = "1 wrack + 1 gull white" }, Color = new ColorInput { Text = "#9aa58c" }, Source = "instrument", Note = note },
                },
                headers);
        }

        var schemes = new V1.Schemes.SchemesClient(service.Invoker);
        using var solving = schemes.RunScheme(new RunSchemeRequest { Text = Scheme.Replace(Hidden, hidden, StringComparison.Ordinal), RequestId = "wash-1" }, headers);
        var run = 0L;
        await foreach (var part in solving.ResponseStream.ReadAllAsync())
        {
            run = part.Summary?.Run ?? run;
        }

        await schemes.LogMixAsync(new LogMixRequest { RequestId = "wash-1", Mix = new V1.MadeMix { Run = run, Notes = hidden + " mix", Parts = { new V1.MadePart { Paint = "wrack", Drops = 2 } } } }, headers);
        using var batch = new Batch.BatchClient(service.Invoker).Solve(headers);
        await batch.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = "night", Shelf = "cove" } });
        foreach (var item in new[] { "skiff-1", hidden + "-2" })
        {
            await batch.RequestStream.WriteAsync(new SolveRequest { Item = new BatchItem { Key = item, Words = new WordsRequest { Color = new ColorInput { Text = "#5a6b3c" } } } });
        }

        await batch.RequestStream.WriteAsync(new SolveRequest { Close = new CloseBatch() });
        await batch.RequestStream.CompleteAsync();
        Assert.Equal(2, await batch.ResponseStream.ReadAllAsync().CountAsync(part => part.Answer is { Error: null }));
        Assert.True(run > 0);
        return run;
    }

    // Everything that is kept of an owner, row by row.
    private List<string> Rows(string owner)
    {
        var mine = $"owner = '{owner}'";
        var ofShelf = $"shelf_key IN (SELECT shelf_key FROM shelf WHERE {mine})";
        var rows = new List<string>();
        foreach (var table in service.Query(service.Postgres is null
            ? "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' ORDER BY name"
            : "SELECT table_name::text FROM information_schema.tables WHERE table_schema = 'public' ORDER BY 1"))
        {
            var columns = service.Query(service.Postgres is null
                ? $"SELECT name FROM pragma_table_info('{table}')"
                : $"SELECT column_name::text FROM information_schema.columns WHERE table_schema = 'public' AND table_name = '{table}' ORDER BY ordinal_position");
            var where = columns.Contains("owner") ? mine
                : columns.Contains("shelf_key") ? ofShelf
                : columns.Contains("paint_key") ? $"paint_key IN (SELECT paint_key FROM paint WHERE {ofShelf})"
                : columns.Contains("swatch_key") ? $"swatch_key IN (SELECT swatch_key FROM swatch WHERE {ofShelf})"
                : table == "schema_version" ? "true"
                : throw new InvalidOperationException($"Whose are the rows of {table}?");
            var content = service.Postgres is null ? string.Join(" || ' ' || ", columns.Select(column => $"quote({column})")) : $"{table}::text";
            rows.AddRange(service.Query($"SELECT '{table}: ' || {content} FROM {table} WHERE {where} ORDER BY 1"));
        }

        return rows;
    }

    /// <summary>Every way to ask every call there.</summary>
    private protected abstract IEnumerable<Way> Ways(Place place);

    /// <summary>Where the service listens.</summary>
    private protected enum Place
    {
        Tls,
        Clear,
        Socket,
    }

    /// <summary>A way to ask a call.</summary>
    /// <param name="Rpc">What is asked.</param>
    /// <param name="Name">Of the way.</param>
    /// <param name="Ask">Asks it with one message, or those of a stream, and a key or none; null where these cannot be asked in this way.</param>
    private protected sealed record Way(MethodDescriptor Rpc, string Name, Func<IReadOnlyList<IMessage>, string?, Task<EveryRpc.Answer>?> Ask);

    [GeneratedRegex(@"\d{4}-\d\d-\d\d[T ][\d:.]+(Z|\+00:00)")]
    private static partial Regex Moment();

    [GeneratedRegex("\"(?:content|bytes|data)\": \"([A-Za-z0-9+/=]+)\"")]
    private static partial Regex Base64();
}
