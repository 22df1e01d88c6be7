using MixEngine.Service.Shelves;

namespace MixEngine.Service.Options;

/// <summary>All that can be said to the service when it starts.</summary>
internal static class SettingList
{
    public static readonly Setting Config = new("config", "FILE", "Read settings from this TOML file; the environment goes before the file, the command line before both.");
    public static readonly Setting Socket = new("socket", "PATH", "File of the Unix domain socket on which to answer gRPC.");
    public static readonly Setting Data = new("data", "DIR", "Folder in which to keep the database mixengine.db.");
    public static readonly Setting Database = new("database", "SETTINGS", "Database of PostgreSQL instead of that file, such as 'Host=db.example;Database=mixengine;Username=mixengine'. A password belongs into MIXENGINE_DATABASE or the file named with --config, or into a file named by Passfile=.");
    public static readonly Setting IdleMinutes = new("idle-minutes", "N", "End after so many minutes without a request; 0: never.");
    public static readonly Setting Grpc = new("grpc", "127.0.0.1:PORT", "Also answer gRPC (HTTP/2, not encrypted) on this address of this machine.");
    public static readonly Setting Http = new("http", "127.0.0.1:PORT", "Also answer JSON (HTTP/1.1, not encrypted) on this address of this machine.");
    public static readonly Setting Https = new("https", "ADDRESS:PORT", "Also answer gRPC and JSON there, encrypted. Where other machines can reach it, every caller needs an access key.");
    public static readonly Setting Certificate = new("certificate", "FILE", "The certificate for --https: PEM with its chain, or PKCS #12 (.p12, .pfx). Read again when it is renewed.");
    public static readonly Setting CertificateKey = new("certificate-key", "FILE", "PEM file of its private key.");
    public static readonly Setting CertificatePassword = new("certificate-password", "TEXT", "Password of the PKCS #12 file or of the key.") { IsSecret = true };
    public static readonly Setting RequireKey = new("require-key", null, "Ask callers on this machine's own ports for an access key too: for use behind a proxy.");
    public static readonly Setting CallsPerSecond = new("calls-per-second", "N", "How often each access key may ask; 0: as often as it likes; 50 unless said.");
    public static readonly Setting Excel = new("excel", "DIR", "Folder of the built add-in for Excel, served over HTTPS under /excel.");
    public static readonly Setting DeadlineSeconds = new("deadline-seconds", "N", "Longest answer to a caller who sets no deadline; 60 unless said.");
    public static readonly Setting SilenceSeconds = new("silence-seconds", "N", "Let go of a client over HTTP/2 that has been silent for so long and leaves a ping unanswered, and of one over TCP that takes nothing of its answer for four times as long; 80 unless said.");
    public static readonly Setting DrainSeconds = new("drain-seconds", "N", "When asked to end, finish what is under way for so long, then hand it back; 10 unless said.");
    public static readonly Setting DrainNoticeSeconds = new("drain-notice-seconds", "N", "When asked to end, say so to health checks for so long before turning callers away; 0 unless said.");
    public static readonly Setting Log = new("log", "text|json", "Form of the log; unless said, text on a terminal and JSON lines elsewhere.");
    public static readonly Setting Metrics = new("metrics", null, "Serve metrics in Prometheus's text form under /metrics.");
    public static readonly Setting Otlp = new("otlp", "http://HOST:4317", "Send traces and metrics to this OpenTelemetry collector (OTLP over gRPC); unless said, to the one that OTEL_EXPORTER_OTLP_ENDPOINT names, if any.");

    public static IReadOnlyList<Setting> All { get; } =
    [
        Config, Socket, Data, Database, IdleMinutes, Grpc, Http, Https, Certificate, CertificateKey, CertificatePassword, RequireKey, CallsPerSecond, Excel,
        DeadlineSeconds, SilenceSeconds, DrainSeconds, DrainNoticeSeconds, Log, Metrics, Otlp,
    ];

    /// <summary>The setting that was probably meant by a word which names none; null: it resembles none.</summary>
    public static Setting? Meant(string word) => All
        .Select(setting => (Setting: setting, Distance: Distance(word, setting.Name)))
        .Where(near => near.Distance <= 1 + (word.Length / 4))
        .OrderBy(near => near.Distance)
        .Select(near => near.Setting)
        .FirstOrDefault();

    // Both ways: a word is not like a name of which it shares a few letters.
    private static int Distance(string word, string name) => Math.Max(EditDistance.ToBeginning(word, name), EditDistance.ToBeginning(name, word));
}
