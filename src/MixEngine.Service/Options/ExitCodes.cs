namespace MixEngine.Service.Options;

/// <summary>What the process says when it ends.</summary>
public static class ExitCodes
{
    /// <summary>It was asked to end, or nobody asked anything for long enough.</summary>
    public const int Ended = 0;

    /// <summary>Its options or its database are at fault; the reasons were written to the error stream.</summary>
    public const int Refused = 1;

    /// <summary>The data was checked, and faults were found; they were written to the output.</summary>
    public const int Faulty = 2;

    /// <summary>Another service answers on this socket already.</summary>
    public const int AlreadyRunning = 4;
}
