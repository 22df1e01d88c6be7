namespace MixEngine.Service;

/// <summary>Everything the service writes to its log. What users entered never stands in it.</summary>
internal static partial class Log
{
    [LoggerMessage(1, LogLevel.Information, "Answering on {Socket} with the database {Database}; gRPC on {Grpc}, JSON on {Http}, both encrypted on {Https}.")]
    public static partial void Started(ILogger logger, string socket, string database, string? grpc, string? http, string? https);

    [LoggerMessage(2, LogLevel.Information, "Ending: no request for {IdleMinutes} minutes.")]
    public static partial void EndingIdle(ILogger logger, double idleMinutes);

    [LoggerMessage(3, LogLevel.Information, "A shelf was loaded at revision {Revision}: {Derived} of its {Paints} paints derived anew in {Milliseconds} ms.")]
    public static partial void ShelfLoaded(ILogger logger, long revision, int derived, int paints, long milliseconds);

    [LoggerMessage(4, LogLevel.Error, "{Method} failed by a fault of the service; the caller was given the reference {Reference}.")]
    public static partial void Unexpected(ILogger logger, Exception exception, string method, string reference);

    [LoggerMessage(5, LogLevel.Warning, "A client spoke HTTP/2 to the HTTP/1.1 port {Address} and was told so.")]
    public static partial void WrongProtocol(ILogger logger, string address);

    [LoggerMessage(6, LogLevel.Warning, "The database could not serve {Method}; the caller was told why.")]
    public static partial void DatabaseTrouble(ILogger logger, Exception exception, string method);

    [LoggerMessage(9, LogLevel.Information, "Ending: {UnderWay} requests are under way.")]
    public static partial void Ending(ILogger logger, int underWay);

    [LoggerMessage(10, LogLevel.Information, "Key {Key} of {Owner} asked {Method} from {Address}: {Status} in {Milliseconds:0.0} ms.")]
    public static partial void Asked(ILogger logger, string key, string owner, string method, Grpc.Core.StatusCode status, double milliseconds, string address);

    [LoggerMessage(11, LogLevel.Information, "{Count} wrong access keys came from {Address} within a minute; until it is over only keys that hold are looked at from there.")]
    public static partial void WrongKeys(ILogger logger, int count, System.Net.IPAddress address);

    [LoggerMessage(7, LogLevel.Information, "The certificate was renewed; it holds until {NotAfter:u}.")]
    public static partial void CertificateRenewed(ILogger logger, DateTime notAfter);

    [LoggerMessage(8, LogLevel.Warning, "The renewed certificate cannot be used, the one before serves on: {Reason}")]
    public static partial void CertificateNotRenewed(ILogger logger, string reason);
}
