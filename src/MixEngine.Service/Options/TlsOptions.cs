using System.Net;
using System.Security.Cryptography;
using MixEngine.Service.Hosting;

namespace MixEngine.Service.Options;

/// <summary>The encrypted port: gRPC and JSON together. None by default.</summary>
public sealed class TlsOptions
{
    /// <summary>Its address. Null: none.</summary>
    public IPEndPoint? Https { get; init; }

    /// <summary>Whether other machines can reach the port: then nobody is answered without an access key.</summary>
    public bool IsReachable => Https is not null && !IPAddress.IsLoopback(Https.Address);

    /// <summary>The certificate: PEM, the issuers' after it, or PKCS #12.</summary>
    public string? Certificate { get; init; }

    /// <summary>Its private key, a PEM file. Null where the certificate's file holds it too.</summary>
    public string? CertificateKey { get; init; }

    /// <summary>Password of the key. Null: it has none.</summary>
    public string? CertificatePassword { get; init; }

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (Https is null)
        {
            if ((Certificate ?? CertificateKey) is not null)
            {
                yield return new OptionFault(Certificate is null ? "certificate-key" : "certificate", "a certificate belongs to --https; name an address too, such as --https 127.0.0.1:7443.");
            }
        }
        else if (Certificate is null)
        {
            yield return new OptionFault("https", "--https needs --certificate and --certificate-key, each a PEM file, or --certificate with a PKCS #12 file. To make them for this machine: dotnet dev-certs https --export-path cert.pem --format Pem --no-password");
        }
        else if (CertificateFault() is { } fault)
        {
            yield return new OptionFault("certificate", $"'{Certificate}'{(CertificateKey is null ? "" : $" with the key '{CertificateKey}'")} cannot be used: {fault} Name a PEM certificate and its PEM key, or a PKCS #12 file, and the password where there is one.");
        }
    }

    private string? CertificateFault()
    {
        try
        {
            ServerCertificate.Load(this).Dispose();
            return null;
        }
        catch (Exception fault) when (fault is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            return fault.Message;
        }
    }
}
