namespace MixEngine.Service.Tests.Access;

/// <summary>On a file of SQLite.</summary>
public sealed class ForeignKeyOverJsonTests(SharedService service) : ForeignKeyOverJsonContract(service), IClassFixture<SharedService>;

/// <summary>On PostgreSQL.</summary>
public sealed class ForeignKeyOverJsonOnPostgresTests(SharedServiceOnPostgres service) : ForeignKeyOverJsonContract(service), IClassFixture<SharedServiceOnPostgres>;

/// <summary>The same over HTTP and JSON, which is another entrance to the same calls.</summary>
public abstract class ForeignKeyOverJsonContract(SharedService service) : ForeignKeyContract(service)
{
    [Fact]
    public void Whatever_is_not_sent_as_a_stream_has_a_path() =>
        Assert.Equal(EveryRpc.All.Where(rpc => rpc.IsClientStreaming), EveryRpc.All.Where(rpc => EveryPath.Of(rpc).Count == 0));

    [Fact]
    public async Task An_owner_is_answered_as_over_grpc()
    {
        // Two owners who have the same are asked the same in the same order, so that what a request changes is the same too.
        var (grpc, json) = (Service.Key("as-grpc"), Service.Key("as-json"));
        var run = await FillAsync(grpc);
        Assert.Equal(run, await FillAsync(json));
        foreach (var way in Ways(Place.Tls))
        {
            foreach (var requests in Requests(run).For(way.Rpc))
            {
                if (way.Ask(requests, json) is { } asked)
                {
                    Assert.Equal((way.Name, Told(await EveryRpc.CallAsync(Service.Invoker, way.Rpc, requests, grpc))), (way.Name, Told(await asked)));
                }
            }
        }
    }

    // A refusal's words stand in other places.
    private static string Told(EveryRpc.Answer answer) => Comparable(answer with { Words = "" });

    private protected override IEnumerable<Way> Ways(Place place) =>
        from rpc in EveryRpc.All
        from rule in EveryPath.Of(rpc)
        select new Way(rpc, EveryPath.NameOf(rule), (requests, key) => EveryPath.RequestOf(rule, requests.Single()) is { } request ? EveryPath.CallAsync(HttpAt(place), rpc, request, key) : null);

    private HttpClient HttpAt(Place place) => place switch
    {
        Place.Tls => Service.Https,
        Place.Clear => Service.Service.Http,
        _ => Service.SocketHttp,
    };
}
