using System.Net;
using System.Net.Security;
using System.Security.Cryptography.X509Certificates;
using Grpc.Net.Client;
using Microsoft.Extensions.Logging;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>The encrypted port, with certificates that openssl made.</summary>
public sealed class TlsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public TlsTests()
    {
        Certificates.MakeAuthority(_folder.Path);
        Certificates.Issue(_folder.Path, "first", "first");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task One_port_speaks_grpc_and_json_to_who_trusts_its_issuer()
    {
        await using var service = await Service(Pem("first"));
        using var channel = GrpcChannel.ForAddress(service.HttpsAddress, new GrpcChannelOptions { HttpHandler = Trusting() });
        Assert.NotNull(await new Mixing.MixingClient(channel).PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "kelp" } }));
        foreach (var version in new[] { HttpVersion.Version11, HttpVersion.Version20 })
        {
            using var http = new HttpClient(Trusting()) { DefaultRequestVersion = version, DefaultVersionPolicy = HttpVersionPolicy.RequestVersionExact };
            using var answer = await http.GetAsync(service.HttpsAddress + "/v1/shelves");
            Assert.Equal((HttpStatusCode.OK, version), (answer.StatusCode, answer.Version));
        }
    }

    [Fact]
    public async Task Who_does_not_trust_its_issuer_sends_nothing()
    {
        await using var service = await Service(Pem("first"));
        using var http = new HttpClient();
        await Assert.ThrowsAsync<HttpRequestException>(() => http.GetAsync(service.HttpsAddress + "/v1/shelves"));
    }

    [Fact]
    public async Task Pkcs12_serves_as_well()
    {
        Certificates.OpenSsl(_folder.Path, "pkcs12", "-export", "-in", "first.pem", "-inkey", "first.key", "-certfile", "authority.pem", "-passout", "pass:low tide", "-out", "first.p12");
        await using var service = await Service(new TlsOptions { Certificate = In("first.p12"), CertificatePassword = "low tide" });
        using var http = new HttpClient(Trusting());
        Assert.Contains("home", await http.GetStringAsync(service.HttpsAddress + "/v1/shelves"));
    }

    [Fact]
    public async Task A_key_with_a_password_serves_as_well()
    {
        Certificates.OpenSsl(_folder.Path, "pkcs8", "-topk8", "-in", "first.key", "-v2", "aes256", "-passout", "pass:low tide", "-out", "locked.key");
        await using var service = await Service(new TlsOptions { Certificate = In("first.pem"), CertificateKey = In("locked.key"), CertificatePassword = "low tide" });
        using var http = new HttpClient(Trusting());
        Assert.Contains("home", await http.GetStringAsync(service.HttpsAddress + "/v1/shelves"));
    }

    [Theory]
    [InlineData("authority.pem", "first.key", null)]
    [InlineData("first.key", "first.key", null)]
    [InlineData("first.pem", null, null)]
    [InlineData("absent.pem", "first.key", null)]
    [InlineData("first.pem", "first.key", "no password is needed")]
    public void A_certificate_that_cannot_be_used_is_told_at_the_start(string certificate, string? key, string? password)
    {
        var options = new TlsOptions { Https = new IPEndPoint(IPAddress.Loopback, 0), Certificate = In(certificate), CertificateKey = key is null ? null : In(key), CertificatePassword = password };
        var fault = Assert.Single(options.Faults());
        Assert.Equal("certificate", fault.Setting);
        Assert.Contains(certificate, fault.Words);
    }

    [Fact]
    public void A_renewed_certificate_is_served_and_a_half_renewed_one_is_not()
    {
        var clock = new Clock();
        var logs = new LogCapture();
        using var factory = LoggerFactory.Create(logging => logging.AddProvider(logs));
        foreach (var ending in new[] { "pem", "key" })
        {
            File.Copy(In($"first.{ending}"), In($"live.{ending}"));
        }

        var certificate = new ServerCertificate(Pem("live"), clock, factory.CreateLogger<ServerCertificate>());
        Assert.Contains("CN=first", certificate.Current.TargetCertificate.Subject);

        // The certificate comes before its key.
        Certificates.Issue(_folder.Path, "second", "second");
        File.Copy(In("second.pem"), In("live.pem"), overwrite: true);
        clock.Advance(TimeSpan.FromMinutes(1));
        Assert.Contains("CN=first", certificate.Current.TargetCertificate.Subject);
        Assert.Single(logs.Entries, entry => entry.Level == LogLevel.Warning);

        File.Copy(In("second.key"), In("live.key"), overwrite: true);
        clock.Advance(TimeSpan.FromMinutes(1));
        Assert.Contains("CN=second", certificate.Current.TargetCertificate.Subject);
        Assert.Contains("renewed", logs.Entries[^1].Message);
    }

    private string In(string name) => Path.Combine(_folder.Path, name);

    private TlsOptions Pem(string name) => new() { Certificate = In($"{name}.pem"), CertificateKey = In($"{name}.key") };

    private static async Task<TestService> Service(TlsOptions tls)
    {
        var service = new TestService
        {
            Options = options => options with
            {
                Tls = new TlsOptions { Https = new IPEndPoint(IPAddress.Loopback, 0), Certificate = tls.Certificate, CertificateKey = tls.CertificateKey, CertificatePassword = tls.CertificatePassword },
            },
        };
        await service.InitializeAsync();
        return service;
    }

    private SocketsHttpHandler Trusting() => Trusting(_folder.Path);

    /// <summary>Trusts the test authority and nobody else, and checks the name.</summary>
    internal static SocketsHttpHandler Trusting(string folder)
    {
        var policy = new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
        policy.CustomTrustStore.ImportFromPemFile(Path.Combine(folder, "authority.pem"));
        return new SocketsHttpHandler { SslOptions = new SslClientAuthenticationOptions { CertificateChainPolicy = policy } };
    }

    private sealed class Clock : TimeProvider
    {
        private long _now;

        public override long GetTimestamp() => _now;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public void Advance(TimeSpan by) => _now += by.Ticks;
    }
}
