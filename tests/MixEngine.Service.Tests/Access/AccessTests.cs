using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Grpc.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.Service.Tests.Hosting;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Access;

/// <summary>Keys as their bearers and whoever runs the service meet them.</summary>
public sealed class AccessTests(SharedService service) : IClassFixture<SharedService>
{
    [Fact]
    public async Task Json_is_answered_like_grpc()
    {
        var (write, read) = (service.Key("json"), service.Key("json", "read"));
        Assert.Equal(HttpStatusCode.Unauthorized, (await AskAsync(HttpMethod.Get, "/v1/shelves", null)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await AskAsync(HttpMethod.Get, "/v1/shelves", write[..^1])).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await AskAsync(HttpMethod.Get, "/v1/shelves", read)).StatusCode);
        var refused = await AskAsync(HttpMethod.Post, "/v1/mixes", read, "{}");
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.Contains("This key may read, and this needs a key that may write.", await refused.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.Unauthorized, (await AskAsync(HttpMethod.Get, "/nowhere", null)).StatusCode);
    }

    [Fact]
    public async Task Health_needs_no_key_and_the_socket_none_either()
    {
        Assert.Equal(HttpStatusCode.OK, (await AskAsync(HttpMethod.Get, "/health/ready", null)).StatusCode);
        Assert.Contains("home", (await service.Service.Shelves.ListShelvesAsync(new ListShelvesRequest())).Shelves.Select(shelf => shelf.Shelf));
        using var clear = Grpc.Net.Client.GrpcChannel.ForAddress(service.Service.GrpcAddress);
        var refused = await Assert.ThrowsAsync<RpcException>(() => new V1.Shelves.ShelvesClient(clear).ListShelvesAsync(new ListShelvesRequest()).ResponseAsync);
        Assert.Equal(StatusCode.Unauthenticated, refused.StatusCode);
    }

    [Theory]
    [InlineData("Bearer")]
    [InlineData("Bearer mxk_")]
    [InlineData("Bearer mxk_000000000000_")]
    [InlineData("Bearer mxk_000000000000_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("Basic a2VscDprZWxw")]
    public async Task What_is_no_key_opens_nothing_not_even_the_socket(string authorization)
    {
        var refused = await Assert.ThrowsAsync<RpcException>(() => service.Service.Shelves.ListShelvesAsync(new ListShelvesRequest(), new Metadata { { "authorization", authorization } }).ResponseAsync);
        Assert.Equal(StatusCode.Unauthenticated, refused.StatusCode);
    }

    [Fact]
    public void A_key_is_shown_once_listed_without_its_secret_and_kept_as_a_hash()
    {
        var made = service.Keys("create", "--owner", "shown", "--scope", "admin", "--label", "the club's tablet");
        Assert.Equal(0, made.ExitCode);
        var (id, secret) = (made.Output.Split('_')[1], made.Output.Trim()["mxk_000000000000_".Length..]);
        Assert.DoesNotContain(secret, made.Errors);
        var line = service.Keys("list").Output.Split('\n').Single(line => line.StartsWith(id, StringComparison.Ordinal));
        Assert.Matches("^" + id + "\tshown\tadmin\tmade [0-9-]{10}\tholds\tthe club's tablet$", line);
        Assert.DoesNotContain(secret, service.Keys("list").Output);
        foreach (var file in Directory.GetFiles(service.Service.DataFolder))
        {
            using var open = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            using var reader = new StreamReader(open, Encoding.Latin1);
            Assert.DoesNotContain(secret, reader.ReadToEnd());
        }

        Assert.Equal(0, service.Keys("revoke", id).ExitCode);
        Assert.Contains("\trevoked ", service.Keys("list").Output.Split('\n').Single(line => line.StartsWith(id, StringComparison.Ordinal)));
        Assert.Equal(1, service.Keys("revoke", "nobody").ExitCode);
    }

    [Theory]
    [InlineData("--owner: 'Tide Folk' is no name", "create", "--owner", "Tide Folk")]
    [InlineData("--scope: 'all' is not known; use read, write or admin.", "create", "--owner", "tide", "--scope", "all")]
    [InlineData("--scope: '1' is not known", "create", "--owner", "tide", "--scope", "1")]
    [InlineData("--days: '0' is no whole number of days from 1 to 3650; leave it out", "create", "--owner", "tide", "--days", "0")]
    [InlineData("--days: '1.5' is no", "create", "--owner", "tide", "--days", "1.5")]
    [InlineData("--days: '99999999999' is no", "create", "--owner", "tide", "--days", "99999999999")]
    [InlineData("--database: It cannot be read", "list", "--database", "nonsense")]
    public void A_faulty_command_says_what_was_expected(string words, params string[] arguments)
    {
        var (exitCode, _, errors) = service.Keys(arguments);
        Assert.Equal(1, exitCode);
        Assert.StartsWith(words, errors);
    }

    [Fact]
    public async Task A_key_holds_for_its_days_and_then_says_that_it_has_expired()
    {
        // Made eight days ago, for a week and for ten days.
        var then = new ClockAt(DateTimeOffset.UtcNow.AddDays(-8));
        var (week, longer) = (service.KeysAt(then, "create", "--owner", "brief", "--days", "7"), service.KeysAt(then, "create", "--owner", "brief", "--days", "10"));
        Assert.Contains($"It holds until {then.GetUtcNow().AddDays(7):u}.", week.Errors);
        var (expired, key) = (week.Output.Trim(), longer.Output.Trim());
        Assert.Equal(HttpStatusCode.OK, (await AskAsync(HttpMethod.Get, "/v1/shelves", key)).StatusCode);
        var refused = await AskAsync(HttpMethod.Get, "/v1/shelves", expired);
        Assert.Equal(HttpStatusCode.Unauthorized, refused.StatusCode);
        Assert.Contains($"This access key expired on {then.GetUtcNow().AddDays(7):u}.", await refused.Content.ReadAsStringAsync());
        var fault = await Assert.ThrowsAsync<RpcException>(() => new V1.Shelves.ShelvesClient(service.Invoker).ListShelvesAsync(new ListShelvesRequest(), SharedService.With(expired)).ResponseAsync);
        Assert.Equal(StatusCode.Unauthenticated, fault.StatusCode);
        Assert.Contains("mixengine key create --owner brief", fault.Status.Detail);

        // Nobody learns of it who has the id alone.
        Assert.DoesNotContain("expired", await (await AskAsync(HttpMethod.Get, "/v1/shelves", expired[..^1])).Content.ReadAsStringAsync());
        var list = service.Keys("list").Output.Split('\n');
        Assert.Contains($"\texpired {then.GetUtcNow().AddDays(7):yyyy-MM-dd}", list.Single(line => line.StartsWith(expired.Split('_')[1], StringComparison.Ordinal)));
        Assert.Contains($"\tholds until {then.GetUtcNow().AddDays(10):yyyy-MM-dd}", list.Single(line => line.StartsWith(key.Split('_')[1], StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Every_call_leaves_a_line_that_says_who_and_holds_no_secret()
    {
        var key = service.Key("audited", "read");
        using var answer = await AskAsync(HttpMethod.Get, "/v1/shelves/secret-lagoon/paints/hidden%20kelp?view.illuminant=A", key);
        using var nobody = await AskAsync(HttpMethod.Get, "/v1/shelves", key + "x");
        var lines = service.Service.Logs.Entries.Where(entry => entry.Category.Contains("Access", StringComparison.Ordinal)).Select(entry => entry.Message).ToArray();
        Assert.Contains(lines, line => line.StartsWith($"Key {key.Split('_')[1]} of audited asked mixengine.v1.Shelves/GetPaint from 127.0.0.1: NotFound in ", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("Key none of nobody asked mixengine.v1.Shelves/ListShelves", StringComparison.Ordinal));
        Assert.All(service.Service.Logs.Entries.Where(entry => entry.Category.StartsWith("MixEngine", StringComparison.Ordinal)), entry =>
            Assert.All(new[] { key["mxk_000000000000_".Length..], "lagoon", "hidden" }, word => Assert.DoesNotContain(word, entry.Message)));
    }

    [Fact]
    public async Task Who_asks_too_often_is_told_when_to_ask_again_and_others_are_not_held_up()
    {
        var often = new SharedService { CallsPerSecond = 1 };
        await using var _ = often;
        await often.InitializeAsync();
        var (key, other) = (often.Key("eager"), often.Key("patient"));
        var shelves = new V1.Shelves.ShelvesClient(often.Invoker);
        RpcException? refused = null;
        for (var i = 0; i < 20 && refused is null; i++)
        {
            try
            {
                await shelves.ListShelvesAsync(new ListShelvesRequest(), SharedService.With(key));
            }
            catch (RpcException fault)
            {
                refused = fault;
            }
        }

        Assert.Equal(StatusCode.ResourceExhausted, refused!.StatusCode);
        var wait = refused.GetRpcStatus()!.GetDetail<Google.Rpc.RetryInfo>()!.RetryDelay.ToTimeSpan();
        Assert.InRange(wait.TotalSeconds, 0.001, 5);
        Assert.NotNull(refused.Trailers.GetValue("grpc-retry-pushback-ms"));
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/shelves") { Headers = { Authorization = new AuthenticationHeaderValue("Bearer", key) } };
        using var answer = await often.Https.SendAsync(request);
        Assert.True(answer.StatusCode == HttpStatusCode.TooManyRequests ? answer.Headers.RetryAfter is not null : answer.StatusCode == HttpStatusCode.OK);
        Assert.NotNull(await shelves.ListShelvesAsync(new ListShelvesRequest(), SharedService.With(other)));
    }

    [Fact]
    public async Task A_service_that_others_can_reach_starts_with_a_key_alone()
    {
        using var folder = new TemporaryFolder();
        Certificates.MakeAuthority(folder.Path);
        Certificates.Issue(folder.Path, "sea", "sea");
        var options = new ServiceOptions(new SocketOptions { Path = folder.Socket }, new DataOptions { Directory = folder.Data })
        {
            Tls = new TlsOptions { Https = new IPEndPoint(IPAddress.Any, 0), Certificate = Path.Combine(folder.Path, "sea.pem"), CertificateKey = Path.Combine(folder.Path, "sea.key") },
        };
        Assert.Empty(options.Faults());
        var refusal = await Assert.ThrowsAsync<NoAccessKeyException>(() => RunningService.StartAsync(options, _ => { }));
        Assert.Contains("mixengine key create", refusal.Message);
        Assert.Equal(0, new KeyCommands(new Dictionary<string, string>(), new ClockAt(DateTimeOffset.UtcNow.AddDays(-2)), TextWriter.Null, TextWriter.Null).Invoke(["create", "--owner", "tide", "--days", "1", "--data", folder.Data]));
        await Assert.ThrowsAsync<NoAccessKeyException>(() => RunningService.StartAsync(options, _ => { }));
        Assert.Equal(0, new KeyCommands(new Dictionary<string, string>(), TimeProvider.System, TextWriter.Null, TextWriter.Null).Invoke(["create", "--owner", "tide", "--data", folder.Data]));
        await using var service = await RunningService.StartAsync(options, _ => { });
        using var http = new HttpClient(TlsTests.Trusting(folder.Path));
        var port = new Uri(service!.TcpAddresses[0].Replace("0.0.0.0", "127.0.0.1", StringComparison.Ordinal)).Port;
        Assert.Equal(HttpStatusCode.Unauthorized, (await http.GetAsync($"https://127.0.0.1:{port}/v1/shelves")).StatusCode);
    }

    private async Task<HttpResponseMessage> AskAsync(HttpMethod method, string path, string? key, string? body = null)
    {
        using var request = new HttpRequestMessage(method, path);
        request.Content = body is null ? null : new StringContent(body, Encoding.UTF8, "application/json");
        request.Headers.Authorization = key is null ? null : new AuthenticationHeaderValue("Bearer", key);
        return await service.Https.SendAsync(request);
    }
}
