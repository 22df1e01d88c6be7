namespace MixEngine.Cli;

/// <summary>What a command says to the script that called it.</summary>
internal static class ExitCode
{
    /// <summary>The question was answered.</summary>
    public const int Answered = 0;

    /// <summary>The question was refused: something in it must be changed. Why is on standard error.</summary>
    public const int Refused = 1;

    /// <summary>The question was answered: it cannot be reached. The nearest is on standard output.</summary>
    public const int CannotBeReached = 2;

    /// <summary>No service answered.</summary>
    public const int NoService = 3;

    /// <summary>Stopped by its user: 128 and the number of SIGINT, as shells have it.</summary>
    public const int Interrupted = 130;
}
