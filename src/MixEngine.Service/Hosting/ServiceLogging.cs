using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace MixEngine.Service.Hosting;

/// <summary>How the log is written.</summary>
internal static class ServiceLogging
{
    /// <summary>To the error stream: as text for people at a terminal, one JSON object a line for everything else.</summary>
    public static void ToErrorStream(ILoggingBuilder logging)
    {
        // The frameworks speak up when something is wrong; calls are answered without a line each.
        var configuration = new LoggerConfiguration()
            .MinimumLevel.Warning()
            .Enrich.With<WithoutPath>()
            .MinimumLevel.Override("MixEngine", LogEventLevel.Information)

            // Why a start failed is told in plain words by whoever started.
            .MinimumLevel.Override("Microsoft.Extensions.Hosting.Internal.Host", LogEventLevel.Fatal);
        configuration = Console.IsErrorRedirected
            ? configuration.WriteTo.Console(new CompactJsonFormatter(), standardErrorFromLevel: LogEventLevel.Verbose)
            : configuration.WriteTo.Console(
                outputTemplate: "{Timestamp:HH:mm:ss} {Level:u4} {Message:lj}{NewLine}{Exception}",
                standardErrorFromLevel: LogEventLevel.Verbose);
        logging.AddSerilog(configuration.CreateLogger(), dispose: true);
    }

    // Paths name shelves and paints, which are nobody's business.
    private sealed class WithoutPath : ILogEventEnricher
    {
        public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory) => logEvent.RemovePropertyIfPresent("RequestPath");
    }
}
