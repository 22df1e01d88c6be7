using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace MixEngine.Client;

/// <summary>Whom to believe that a certificate is the service's.</summary>
internal static class Trust
{
    /// <summary>What the system trusts, and besides it an authority of the operator's own.</summary>
    /// <param name="path">A PEM file of one certificate or several.</param>
    /// <exception cref="ArgumentException">It cannot be read, or holds none.</exception>
    public static X509ChainPolicy Besides(string path)
    {
        // Nothing else is eased: the name, the dates and the purpose are checked as ever, and revocation as .NET does unless told otherwise.
        var policy = new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
        policy.CustomTrustStore.AddRange(Read(path));
        foreach (var location in new[] { StoreLocation.LocalMachine, StoreLocation.CurrentUser })
        {
            using var system = new X509Store(StoreName.Root, location, OpenFlags.ReadOnly);
            policy.CustomTrustStore.AddRange(system.Certificates);
        }

        return policy;
    }

    private static X509Certificate2Collection Read(string path)
    {
        var authorities = new X509Certificate2Collection();
        try
        {
            authorities.ImportFromPemFile(path);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new ArgumentException($"The certificate authority \"{path}\" cannot be read: {fault.Message} Name a PEM file of its certificate.", fault);
        }

        return authorities.Count > 0
            ? authorities
            : throw new ArgumentException($"\"{path}\" holds no certificate; name a PEM file of the certificate authority, with a line BEGIN CERTIFICATE.");
    }
}
