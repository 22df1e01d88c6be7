using MixEngine.Service.Options;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Extensions.Logging;
using Serilog.Formatting.Compact;

namespace MixEngine.Service.Hosting;

/// <summary>How the log is written.</summary>
internal static class ServiceLogging
{
    /// <summary>To the error stream: as text for people at a terminal, one JSON object a line for everything else, unless the options say otherwise.</summary>
    public static Action<ILoggingBuilder> ToErrorStream(LogOptions options) => logging =>
    {
        // The frameworks speak up when something is wrong; calls are answered without a line each.
        var configuration = new LoggerConfiguration()
            .MinimumLevel.Warning()
            .Enrich.With<WithoutPath>()
            .MinimumLevel.Override("MixEngine", LogEventLevel.Information)

            // Why a start failed is told in plain words by whoever started.
            .MinimumLevel.Override("Microsoft.Extensions.Hosting.Internal.Host", LogEventLevel.Fatal)

            // Health checks answer whoever asks; what they find is not news each time.
            .MinimumLevel.Override("Microsoft.Extensions.Diagnostics.HealthChecks", LogEventLevel.Fatal);
        configuration = (options.Form ?? (Console.IsErrorRedirected ? LogOptions.Json : LogOptions.Text)) == LogOptions.Json
            ? configuration.WriteTo.Console(new CompactJsonFormatter(), standardErrorFromLevel: LogEventLevel.Verbose)
            : configuration.WriteTo.Console(
                outputTemplate: "{Timestamp:HH:mm:ss} {Level:u4} {Message:lj}{NewLine}{Exception}",
                standardErrorFromLevel: LogEventLevel.Verbose);
        logging.AddSerilog(configuration.CreateLogger(), dispose: true);

        // It writes nothing that is kept, and while it is heard at all every request gets an activity of its own.
        logging.AddFilter<SerilogLoggerProvider>("Microsoft.AspNetCore.Hosting.Diagnostics", LogLevel.None);
    };

    // Paths name shelves and paints, which are nobody's business.
    private sealed class WithoutPath : ILogEventEnricher
    {
        public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory) => logEvent.RemovePropertyIfPresent("RequestPath");
    }
}
