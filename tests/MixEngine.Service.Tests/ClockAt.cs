namespace MixEngine.Service.Tests;

/// <summary>A clock that shows what it was set to.</summary>
internal sealed class ClockAt(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => Now.UtcTicks;
}
