using System.Net.Sockets;
using Grpc.Core;
using Grpc.Net.Client;
using MixEngine.V1;

namespace MixEngine.Client.Tests;

/// <summary>The library against a service that asks for TLS and a key.</summary>
public sealed class SharedServiceTests(SharedService service) : IClassFixture<SharedService>, IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("mx-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task An_authority_of_ones_own_and_a_key_open_the_service_under_each_of_its_names()
    {
        Uri[] names = [new(service.Address), new($"https://127.0.0.1:{service.Port}")];
        GrpcChannel[] channels =
        [
            .. names.Select(name => ServiceChannel.To(name.AbsoluteUri, service.Key, service.Authority)),
            ServiceChannel.To($"dns:///localhost:{service.Port}", service.Key, service.Authority),
            ServiceChannel.To(names, service.Key, service.Authority),
        ];
        foreach (var channel in channels)
        {
            using (channel)
            {
                await ClientTests.ImportAsync(channel);
                await AskAsync(channel);
            }
        }
    }

    [Fact]
    public async Task Who_does_not_trust_the_issuer_sends_nothing()
    {
        TestAuthority.Issue(_folder);
        Assert.Contains("certificate chain", (await RefusalAsync(service.Key, authority: null)).ToString(), StringComparison.Ordinal);

        // Another authority of the same name.
        Assert.Contains("certificate chain", (await RefusalAsync(service.Key, Path.Combine(_folder, "authority.pem"))).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_trusted_issuer_does_not_make_another_name_right()
    {
        // The same machine, by a name that the certificate does not have.
        Assert.SkipUnless(Socket.OSSupportsIPv6, "This machine has no IPv6.");
        var refusal = await RefusalAsync(service.Key, service.Authority, $"https://[::ffff:127.0.0.1]:{service.Port}");
        Assert.Contains("RemoteCertificateNameMismatch", refusal.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_key_and_with_a_wrong_one_nothing_is_answered()
    {
        Assert.Equal(StatusCode.Unauthenticated, (await RefusalAsync(key: null, service.Authority)).StatusCode);
        Assert.Equal(StatusCode.Unauthenticated, (await RefusalAsync(service.Key + "x", service.Authority)).StatusCode);
    }

    [Fact]
    public void An_authority_that_cannot_vouch_is_refused()
    {
        var empty = Path.Combine(_folder, "empty.pem");
        File.WriteAllText(empty, "kelp");
        Assert.Contains("holds no certificate", Refused(service.Address, empty), StringComparison.Ordinal);
        Assert.Contains("cannot be read", Refused(service.Address, Path.Combine(_folder, "absent.pem")), StringComparison.Ordinal);
        Assert.Contains("write https://", Refused("http://localhost:7401", service.Authority), StringComparison.Ordinal);
        Assert.Contains("write https://", Refused("unix:/run/mixengine.sock", service.Authority), StringComparison.Ordinal);
    }

    private static string Refused(string address, string authority) => Assert.Throws<ArgumentException>(() => ServiceChannel.To(address, authority: authority)).Message;

    private static async Task AskAsync(ChannelBase channel) =>
        Assert.NotEmpty((await new Mixing.MixingClient(channel).PredictAsync(new PredictRequest { Shelf = "home", Recipe = new RecipeInput { Text = "kelp" } }, cancellationToken: TestContext.Current.CancellationToken)).Color.Hex);

    // A call that is not repeated: what goes wrong shows at once.
    private async Task<RpcException> RefusalAsync(string? key, string? authority, string? address = null)
    {
        using var channel = ServiceChannel.To(address ?? service.Address, key, authority);
        return await Assert.ThrowsAsync<RpcException>(() => ClientTests.ImportAsync(channel));
    }
}
