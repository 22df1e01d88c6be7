using System.Text;
using System.Text.RegularExpressions;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Json;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Access;

/// <summary>On a file of SQLite.</summary>
public sealed class ForeignKeyTests(SharedService service) : ForeignKeyContract(service), IClassFixture<SharedService>;

/// <summary>On PostgreSQL.</summary>
public sealed class ForeignKeyOnPostgresTests(SharedServiceOnPostgres service) : ForeignKeyContract(service), IClassFixture<SharedServiceOnPostgres>;

/// <summary>Every call of the contract with a foreign key, with one that may only read, and with none.</summary>
public abstract partial class ForeignKeyContract(SharedService service)
{
    // In whatever an owner has that no request of these tests names.
    private const string Hidden = "unseen";

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
        Assert.Equal(EveryRpc.All.Count, beside.Count);
        Assert.All(beside.Keys, name =>
        {
            Assert.Equal(alone[name], beside[name]);
            Assert.All(beside[name], answer => Assert.DoesNotContain(Hidden, answer));
        });
        Assert.Equal(kept, Rows("tide"));

        // The same requests do reach what the owner has, when the owner asks.
        var own = await AskAllAsync(owner, run);
        var reached = own.Where(answers => answers.Value.Any(answer => answer.Contains(Hidden, StringComparison.Ordinal))).Select(answers => answers.Key).ToArray();
        Assert.All(
            new[] { "Batch/Solve", "Shelves/ListShelves", "Shelves/ListPaints", "Shelves/ExportShelf", "Schemes/ListSchemeRuns", "Schemes/GetSchemeRun", "Schemes/ListMixes", "Swatches/ListSwatches", "Swatches/ExportSwatches" },
            name => Assert.Contains("mixengine.v1." + name, reached));
        Assert.NotEqual(kept, Rows("tide"));
    }

    [Fact]
    public async Task A_key_that_may_read_changes_nothing_and_without_a_key_nobody_is_answered()
    {
        var (write, read, revoked) = (service.Key("reader"), service.Key("reader", "read"), service.Key("reader"));
        Assert.Equal(0, service.Keys("revoke", revoked.Split('_')[1]).ExitCode);
        var run = await FillAsync(write);
        var kept = Rows("reader");
        foreach (var rpc in EveryRpc.All)
        {
            var name = EveryRpc.NameOf(rpc);
            foreach (var request in Requests(run).For(rpc))
            {
                Assert.Equal((name, NeededScope.OfRpc(name) > Scope.Read), (name, (await EveryRpc.CallAsync(service.Invoker, rpc, request, read)).Status == StatusCode.PermissionDenied));
                Assert.Equal((name, StatusCode.Unauthenticated), (name, (await EveryRpc.CallAsync(service.Invoker, rpc, request, null)).Status));

                // Over the socket, where it is looked at however often it is shown.
                Assert.Equal((name, StatusCode.Unauthenticated), (name, (await EveryRpc.CallAsync(service.Service.Channel.CreateCallInvoker(), rpc, request, revoked)).Status));
            }
        }

        Assert.Equal(kept, Rows("reader"));
    }

    private static GeneratedRequests Requests(long run) => new(
        new Dictionary<string, string>
        {
            ["shelf"] = "cove", ["other_shelf"] = "cove", ["batch"] = "night", ["key"] = "skiff-1", ["keys"] = "skiff-1", ["paint"] = "wrack", ["id"] = "s1",
            ["file_name"] = "coast.csv", ["content"] = "name,hex\nsand,#c8b48a\n", ["request_id"] = "wash-1", ["illuminant"] = "D50",
        },
        new Dictionary<string, string>
        {
            ["RecipeInput"] = "2 wrack + 1 dulse", ["ColorInput"] = "#5a6b3c", ["RunSchemeRequest"] = Scheme.Replace(Hidden, "seen", StringComparison.Ordinal),
            ["CheckSchemeRequest"] = Scheme.Replace(Hidden, "seen", StringComparison.Ordinal),
        },
        run);

    private async Task<Dictionary<string, string[]>> AskAllAsync(string key, long run)
    {
        var answers = new Dictionary<string, string[]>();
        foreach (var rpc in EveryRpc.All)
        {
            var all = new List<string>();
            foreach (var request in Requests(run).For(rpc))
            {
                var answer = await EveryRpc.CallAsync(service.Invoker, rpc, request, key);
                all.Add(Comparable(answer));
            }

            answers[EveryRpc.NameOf(rpc)] = [.. all];
        }

        return answers;
    }

    // Answers without what differs each time: the order of a batch's answers, how far it is, and the moment.
    private static string Comparable(EveryRpc.Answer answer)
    {
        var messages = answer.Messages
            .Where(message => message.Descriptor.Oneofs.FirstOrDefault(oneof => oneof.Name == "part")?.Accessor.GetCaseFieldDescriptor(message)?.Name != "progress")
            .Select(message => Json.Format(message))
            .Order(StringComparer.Ordinal);
        return Moment().Replace($"{answer.Status} {answer.Words} {string.Join('\n', messages.Select(Readable))}", "MOMENT");
    }

    // Files are bytes, which JSON shows as base64.
    private static string Readable(string json) => Base64().Replace(json, match => Encoding.UTF8.GetString(Convert.FromBase64String(match.Groups[1].Value)));

    private async Task<long> FillAsync(string key)
    {
        var headers = SharedService.With(key);
        var shelves = new V1.Shelves.ShelvesClient(service.Invoker);
        foreach (var shelf in new[] { "cove", "unseen-bay" })
        {
            await shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = shelf, FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Table) }, headers);
        }

        await new Swatches.SwatchesClient(service.Invoker).AddSwatchAsync(
            new AddSwatchRequest
            {
                Shelf = "cove",
                Swatch = new Swatch { Recipe = new RecipeInput { Text = "1 wrack + 1 gull white" }, Color = new ColorInput { Text = "#9aa58c" }, Source = "instrument", Note = "unseen swatch" },
            },
            headers);
        var schemes = new V1.Schemes.SchemesClient(service.Invoker);
        using var solving = schemes.RunScheme(new RunSchemeRequest { Text = Scheme }, headers);
        var run = 0L;
        await foreach (var part in solving.ResponseStream.ReadAllAsync())
        {
            run = part.Summary?.Run ?? run;
        }

        await schemes.LogMixAsync(new LogMixRequest { Mix = new V1.MadeMix { Run = run, Notes = "unseen mix", Parts = { new V1.MadePart { Paint = "wrack", Drops = 2 } } } }, headers);
        using var batch = new Batch.BatchClient(service.Invoker).Solve(headers);
        await batch.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = "night", Shelf = "cove" } });
        foreach (var item in new[] { "skiff-1", "unseen-2" })
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

    [GeneratedRegex(@"\d{4}-\d\d-\d\d[T ][\d:.]+(Z|\+00:00)")]
    private static partial Regex Moment();

    [GeneratedRegex("\"(?:content|bytes|data)\": \"([A-Za-z0-9+/=]+)\"")]
    private static partial Regex Base64();
}
