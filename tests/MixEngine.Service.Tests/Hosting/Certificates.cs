using System.Diagnostics;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>Certificates as openssl makes them: an authority of its own, and what it issues for this machine.</summary>
internal static class Certificates
{
    private const string Names = "subjectAltName=DNS:localhost,IP:127.0.0.1";

    /// <summary>Makes authority.pem and its key in a folder.</summary>
    public static void MakeAuthority(string folder) => OpenSsl(
        folder, "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-days", "2", "-subj", "/CN=Tide-folk test authority",
        "-addext", "basicConstraints=critical,CA:TRUE", "-keyout", "authority.key", "-out", "authority.pem");

    /// <summary>Makes NAME.pem and NAME.key, issued by the authority.</summary>
    public static void Issue(string folder, string name, string commonName)
    {
        OpenSsl(
            folder, "req", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-subj", $"/CN={commonName}", "-addext", Names,
            "-keyout", $"{name}.key", "-out", $"{name}.csr");
        OpenSsl(
            folder, "x509", "-req", "-in", $"{name}.csr", "-CA", "authority.pem", "-CAkey", "authority.key", "-CAcreateserial", "-days", "1",
            "-copy_extensions", "copy", "-out", $"{name}.pem");
    }

    public static void OpenSsl(string folder, params string[] arguments)
    {
        using var openssl = Process.Start(new ProcessStartInfo("openssl", arguments) { WorkingDirectory = folder, RedirectStandardError = true, RedirectStandardOutput = true })!;
        var errors = openssl.StandardError.ReadToEnd();
        openssl.WaitForExit();
        Assert.True(openssl.ExitCode == 0, errors);
    }
}
