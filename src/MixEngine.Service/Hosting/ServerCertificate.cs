using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using MixEngine.Service.Options;

namespace MixEngine.Service.Hosting;

/// <summary>The certificate of the encrypted port. When its files are renewed, connections made from then on get the new one.</summary>
internal sealed class ServerCertificate(TlsOptions options, TimeProvider clock, ILogger<ServerCertificate> logger)
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(10);

    private readonly Lock _lock = new();
    private byte[] _fingerprint = [];
    private SslStreamCertificateContext? _current;
    private long _lastLook;

    /// <summary>The certificate with its chain, as it is now.</summary>
    public SslStreamCertificateContext Current
    {
        get
        {
            lock (_lock)
            {
                if (_current is null || clock.GetElapsedTime(_lastLook) >= BetweenLooks)
                {
                    _lastLook = clock.GetTimestamp();
                    Look();
                }

                return _current!;
            }
        }
    }

    /// <summary>The certificate and its key as the files hold them now.</summary>
    /// <exception cref="CryptographicException">They hold none that can be used.</exception>
    /// <exception cref="IOException">They cannot be read.</exception>
    public static X509Certificate2 Load(TlsOptions options) => LoadWithChain(options).Leaf;

    private static (X509Certificate2 Leaf, X509Certificate2Collection Chain) LoadWithChain(TlsOptions options)
    {
        var (path, password) = (options.Certificate!, options.CertificatePassword);
        if (!File.ReadAllBytes(path).AsSpan().StartsWith("0"u8) || options.CertificateKey is not null)
        {
            var key = options.CertificateKey ?? path;
            var chain = new X509Certificate2Collection();
            chain.ImportFromPemFile(path);
            return (password is null ? X509Certificate2.CreateFromPemFile(path, key) : X509Certificate2.CreateFromEncryptedPemFile(path, password, key), chain);
        }

        // PKCS #12 is one DER sequence, and begins with 0x30.
        var all = X509CertificateLoader.LoadPkcs12CollectionFromFile(path, password);
        return (all.FirstOrDefault(one => one.HasPrivateKey) ?? throw new CryptographicException("It holds no private key."), all);
    }

    private void Look()
    {
        try
        {
            var fingerprint = SHA256.HashData([.. File.ReadAllBytes(options.Certificate!), .. options.CertificateKey is { } key ? File.ReadAllBytes(key) : []]);
            if (_current is not null && fingerprint.AsSpan().SequenceEqual(_fingerprint))
            {
                return;
            }

            // What is refused once is not tried again until it changes again.
            var isRenewal = _current is not null;
            _fingerprint = fingerprint;
            var (leaf, chain) = LoadWithChain(options);
            _current = SslStreamCertificateContext.Create(leaf, chain, offline: true);
            if (isRenewal)
            {
                Log.CertificateRenewed(logger, leaf.NotAfter.ToUniversalTime());
            }
        }
        catch (Exception fault) when (_current is not null && fault is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            // Halfway through a renewal certificate and key may not belong together yet: the old one serves on.
            Log.CertificateNotRenewed(logger, fault.Message);
        }
    }
}
