using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace MixEngine.Service.Options;

/// <summary>The add-in for Excel, served over HTTPS together with the calls that it needs: Excel loads add-ins from nowhere else.</summary>
public sealed class ExcelOptions
{
    /// <summary>Address for HTTPS (HTTP/1.1, JSON). Null, the default: none.</summary>
    public IPEndPoint? Https { get; init; }

    /// <summary>The certificate, a PEM file.</summary>
    public string? Certificate { get; init; }

    /// <summary>Its private key, a PEM file.</summary>
    public string? Key { get; init; }

    /// <summary>The folder of the built add-in, served under /excel. Null: only the calls are served.</summary>
    public string? Folder { get; init; }

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<string> Faults()
    {
        if (Https is null)
        {
            if ((Certificate ?? Key ?? Folder) is not null)
            {
                yield return "--certificate, --key and --excel belong to --https; name an address too, such as --https 127.0.0.1:7443.";
            }

            yield break;
        }

        if (!IPAddress.IsLoopback(Https.Address))
        {
            yield return $"--https: {Https} can be reached from other machines, and the service has no access keys yet: anybody could read and change your shelves. Use 127.0.0.1:{Https.Port}.";
        }

        if (Certificate is null || Key is null)
        {
            yield return "--https needs --certificate and --key, each a PEM file. To make them for this machine: dotnet dev-certs https --export-path cert.pem --format Pem --no-password";
        }
        else if (CertificateFault() is { } fault)
        {
            yield return $"--certificate '{Certificate}' with --key '{Key}' cannot be used: {fault} Name a PEM certificate and its unencrypted PEM key.";
        }

        if (Folder is not null && !Directory.Exists(Folder))
        {
            yield return $"--excel: there is no folder '{Folder}'. Build the add-in first: npm run build in clients/spreadsheet/excel.";
        }
    }

    /// <summary>The certificate with its key; only of options without faults.</summary>
    public X509Certificate2 LoadCertificate() => X509Certificate2.CreateFromPemFile(Certificate!, Key!);

    private string? CertificateFault()
    {
        try
        {
            LoadCertificate().Dispose();
            return null;
        }
        catch (Exception fault) when (fault is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            return fault.Message;
        }
    }
}
