using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace MixEngine.Client.Tests;

/// <summary>A certificate authority that lives for a test, and what it issues for this machine.</summary>
internal static class TestAuthority
{
    private static readonly TimeSpan Lifetime = TimeSpan.FromDays(1);

    /// <summary>Makes authority.pem, and service.pem with its key for localhost and 127.0.0.1, in a folder.</summary>
    public static void Issue(string folder)
    {
        var (from, to) = (DateTimeOffset.UtcNow - TimeSpan.FromMinutes(5), DateTimeOffset.UtcNow + Lifetime);
        using var authorityKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var authorityRequest = new CertificateRequest("CN=Tide-folk test authority", authorityKey, HashAlgorithmName.SHA256);
        authorityRequest.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: true, hasPathLengthConstraint: false, pathLengthConstraint: 0, critical: true));
        authorityRequest.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, critical: true));
        using var authority = authorityRequest.CreateSelfSigned(from, to);

        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=harbour", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        names.AddIpAddress(IPAddress.Loopback);
        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, pathLengthConstraint: 0, critical: true));
        using var service = request.Create(authority, from, to, RandomNumberGenerator.GetBytes(8));

        File.WriteAllText(Path.Combine(folder, "authority.pem"), authority.ExportCertificatePem());
        File.WriteAllText(Path.Combine(folder, "service.pem"), service.ExportCertificatePem());
        var privately = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            privately.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using var file = new StreamWriter(Path.Combine(folder, "service.key"), privately);
        file.Write(key.ExportPkcs8PrivateKeyPem());
    }
}
