using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace MixEngine.Service.Tests;

/// <summary>Keeps what was logged, so that a test fails when a warning or an error was logged that it did not declare.</summary>
internal sealed class LogCapture : ILoggerProvider
{
    private readonly ConcurrentQueue<Entry> _entries = new();
    private readonly List<Func<Entry, bool>> _declared = [];

    public IReadOnlyList<Entry> Entries => [.. _entries];

    public ILogger CreateLogger(string categoryName) => new Logger(categoryName, _entries);

    /// <summary>Warnings and errors like this one belong to the test.</summary>
    public void Declare(Func<Entry, bool> isExpected) => _declared.Add(isExpected);

    /// <summary>Fails when anything else was logged as a warning or an error.</summary>
    public void AssertNothingUndeclared()
    {
        var undeclared = _entries.Where(entry => entry.Level >= LogLevel.Warning && !_declared.Exists(isExpected => isExpected(entry)));
        var told = string.Join('\n', undeclared.Select(entry => $"{entry.Category}: {entry.Message} {entry.Exception}"));
        Assert.True(told.Length == 0, told);
    }

    public void Dispose()
    {
    }

    internal sealed record Entry(string Category, LogLevel Level, string Message, Exception? Exception);

    private sealed class Logger(string category, ConcurrentQueue<Entry> entries) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            entries.Enqueue(new Entry(category, logLevel, formatter(state, exception), exception));
    }
}
