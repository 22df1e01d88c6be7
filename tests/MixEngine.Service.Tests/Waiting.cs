using System.Diagnostics;

namespace MixEngine.Service.Tests;

/// <summary>Waits for what must happen, and fails with words where it does not: a test that waits for ever holds up all others.</summary>
internal static class Waiting
{
    /// <summary>Far beyond what anything here takes on a machine that does other things besides.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>Looks every few milliseconds whether it has happened.</summary>
    /// <param name="happened">Looks.</param>
    /// <param name="otherwise">What to say where it has not after a minute.</param>
    /// <param name="everyMilliseconds">How often.</param>
    public static async Task UntilAsync(Func<bool> happened, string otherwise, int everyMilliseconds = 5)
    {
        var start = Stopwatch.GetTimestamp();
        while (!happened())
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < Patience, otherwise);
            await Task.Delay(everyMilliseconds, TestContext.Current.CancellationToken);
        }
    }
}
