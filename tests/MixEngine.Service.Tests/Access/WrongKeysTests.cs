using System.Net;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging.Abstractions;
using MixEngine.Service.Access;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Access;

/// <summary>Who shows wrong keys again and again is refused cheaply, and nobody else is.</summary>
public sealed class WrongKeysTests : IDisposable
{
    private static readonly IPAddress House = IPAddress.Parse("192.0.2.7"), Neighbour = IPAddress.Parse("192.0.2.8");

    private readonly TemporaryFolder _folder = new();
    private readonly ClockAt _clock = new(new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero));
    private readonly SqliteDatabase _database;
    private readonly AccessKeyStore _keys;
    private readonly AccessCheck _check;

    public WrongKeysTests()
    {
        Directory.CreateDirectory(_folder.Data);
        _database = SqliteDatabase.Open(Path.Combine(_folder.Data, "mixengine.db"));
        _keys = new AccessKeyStore(_database);
        _check = new AccessCheck(_keys, _clock, NullLogger<AccessCheck>.Instance);
    }

    public void Dispose()
    {
        _database.Dispose();
        _folder.Dispose();
    }

    [Fact]
    public async Task Beyond_twenty_a_wrong_key_is_refused_and_the_database_is_not_asked()
    {
        var right = Make();
        await FloodAsync(House);
        var refused = await AskAsync(House, Wrong());
        Assert.Equal(StatusCodes.Status429TooManyRequests, refused.Response.StatusCode);
        Assert.Equal("60", refused.Response.Headers.RetryAfter);
        Assert.Equal(StatusCodes.Status200OK, (await AskAsync(House, right)).Response.StatusCode);
        Assert.Equal(StatusCodes.Status401Unauthorized, (await AskAsync(Neighbour, Wrong())).Response.StatusCode);

        // Without its table whoever asks the database fails.
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={Path.Combine(_folder.Data, "mixengine.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "DROP TABLE access_key";
            command.ExecuteNonQuery();
        }

        foreach (var wrong in new[] { Wrong(), right[..^1], "mxk_", right[..17] + Wrong()[17..] })
        {
            Assert.Equal(StatusCodes.Status429TooManyRequests, (await AskAsync(House, wrong)).Response.StatusCode);
        }

        await Assert.ThrowsAsync<Microsoft.Data.Sqlite.SqliteException>(() => AskAsync(Neighbour, Wrong()));
    }

    [Fact]
    public async Task A_key_that_is_made_or_revoked_meanwhile_counts_as_what_it_is()
    {
        var (old, kept) = (Make(), Make());
        await FloodAsync(House);
        Assert.Equal(StatusCodes.Status429TooManyRequests, (await AskAsync(House, Wrong())).Response.StatusCode);
        _keys.Revoke(old.Split('_')[1], _clock.Now);
        Assert.NotEqual(StatusCodes.Status200OK, (await AskAsync(House, old)).Response.StatusCode);
        var made = Make();
        _clock.Now += TimeSpan.FromSeconds(2);
        Assert.Equal(StatusCodes.Status200OK, (await AskAsync(House, made)).Response.StatusCode);
        Assert.Equal(StatusCodes.Status200OK, (await AskAsync(House, kept)).Response.StatusCode);
        Assert.Equal(StatusCodes.Status429TooManyRequests, (await AskAsync(House, old)).Response.StatusCode);
    }

    [Fact]
    public async Task After_a_minute_it_is_looked_at_again()
    {
        await FloodAsync(House);
        _clock.Now += TimeSpan.FromSeconds(59);
        Assert.Equal("1", (await AskAsync(House, Wrong())).Response.Headers.RetryAfter);
        _clock.Now += TimeSpan.FromSeconds(1);
        Assert.Equal(StatusCodes.Status401Unauthorized, (await AskAsync(House, Wrong())).Response.StatusCode);
    }

    [Fact]
    public async Task Who_shows_none_or_one_that_expired_is_not_counted()
    {
        var expired = Make(_clock.Now);
        for (var i = 0; i < 2 * WrongKeys.Most; i++)
        {
            Assert.Equal(StatusCodes.Status401Unauthorized, (await AskAsync(House, null)).Response.StatusCode);
            Assert.Equal(StatusCodes.Status401Unauthorized, (await AskAsync(House, expired)).Response.StatusCode);
        }

        await FloodAsync(House);
        var refused = await AskAsync(House, expired);
        Assert.Equal(StatusCodes.Status401Unauthorized, refused.Response.StatusCode);
    }

    [Fact]
    public void Addresses_of_one_house_count_as_one_and_there_is_room_for_so_many_alone()
    {
        var wrong = new WrongKeys(_keys, _clock);
        for (var i = 1; i < WrongKeys.Most; i++)
        {
            Assert.False(wrong.Count(IPAddress.Parse($"2001:db8:0:1::{i:x}")));
        }

        Assert.True(wrong.Count(IPAddress.Parse("2001:db8:0:1:ffff::1")));
        Assert.NotNull(wrong.WaitOf(IPAddress.Parse("2001:db8:0:1::abc"), null));
        Assert.Null(wrong.WaitOf(IPAddress.Parse("2001:db8:0:2::abc"), null));

        // An address in the newer form is the same address.
        for (var i = 0; i < WrongKeys.Most; i++)
        {
            wrong.Count(House);
        }

        Assert.NotNull(wrong.WaitOf(House.MapToIPv6(), null));

        // Beyond all room the others are one: what is no key of theirs is refused, and what is one is not.
        for (var i = 0; i < WrongKeys.MostAddresses + WrongKeys.Most; i++)
        {
            wrong.Count(new IPAddress(0x0a000000L + i));
        }

        var right = KeyText.Read(Make())!.Value;
        var newcomer = IPAddress.Parse("198.51.100.1");
        Assert.NotNull(wrong.WaitOf(newcomer, KeyText.New()));
        Assert.Null(wrong.WaitOf(newcomer, right));
        Assert.Null(wrong.WaitOf(null, KeyText.New()));
    }

    [Fact]
    public async Task Grpc_and_json_are_told_when_to_try_again_and_a_right_key_is_answered()
    {
        var service = new SharedService();
        await using var _ = service;
        await service.InitializeAsync();
        var key = service.Key("tide");
        var shelves = new V1.Shelves.ShelvesClient(service.Invoker);
        RpcException? refused = null;
        for (var i = 0; i <= WrongKeys.Most; i++)
        {
            refused = await Assert.ThrowsAsync<RpcException>(() => shelves.ListShelvesAsync(new ListShelvesRequest(), SharedService.With(Wrong())).ResponseAsync);
            Assert.Equal((i, i < WrongKeys.Most ? StatusCode.Unauthenticated : StatusCode.ResourceExhausted), (i, refused.StatusCode));
        }

        Assert.Contains("20 wrong access keys came from your address", refused!.Status.Detail);
        Assert.InRange(refused.GetRpcStatus()!.GetDetail<Google.Rpc.RetryInfo>()!.RetryDelay.ToTimeSpan().TotalSeconds, 1, 60);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/shelves") { Headers = { Authorization = new("Bearer", Wrong()) } };
        using var answer = await service.Https.SendAsync(request);
        Assert.Equal((HttpStatusCode.TooManyRequests, true), (answer.StatusCode, answer.Headers.RetryAfter is not null));
        Assert.NotNull(await shelves.ListShelvesAsync(new ListShelvesRequest(), SharedService.With(key)));
        Assert.Single(service.Service.Logs.Entries, entry => entry.Message.StartsWith("20 wrong access keys came from 127.0.0.1", StringComparison.Ordinal));
    }

    private async Task FloodAsync(IPAddress from)
    {
        for (var i = 0; i < WrongKeys.Most; i++)
        {
            Assert.Equal(StatusCodes.Status401Unauthorized, (await AskAsync(from, Wrong())).Response.StatusCode);
        }
    }

    private static string Wrong() => KeyText.New().Whole();

    private string Make(DateTimeOffset? expires = null)
    {
        var text = KeyText.New();
        _keys.Add(new AccessKey(text.Id, Owner.Named("tide"), Scope.Read, "", _clock.Now, null, expires), text.Hash());
        return text.Whole();
    }

    private async Task<HttpContext> AskAsync(IPAddress from, string? key)
    {
        var context = new DefaultHttpContext { Connection = { RemoteIpAddress = from } };
        context.Features.Set(KeyRequired.Instance);
        if (key is not null)
        {
            context.Request.Headers.Authorization = "Bearer " + key;
        }

        await _check.CheckAsync(context, _ => Task.CompletedTask);
        return context;
    }
}
