using System.Diagnostics.CodeAnalysis;

namespace MixEngine.Interchange;

/// <summary>What reading a file came to: a whole table and what is to be said of it, or every fault found and no table.</summary>
/// <typeparam name="T">The table: <see cref="ShelfTable"/> or <see cref="SwatchTable"/>.</typeparam>
public sealed record ReadResult<T> where T : class
{
    /// <summary>The table; null when there is a fault.</summary>
    public T? Table { get; init; }

    /// <summary>The format that the content shows (<see cref="TableFormat.Csv"/> for both of its layouts); null when it could not be told.</summary>
    public TableFormat? Format { get; init; }

    /// <summary>What was ignored, assumed or brought to another form, in plain words.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>The faults in the order of the file, at most <see cref="ImportLimits.Faults"/>.</summary>
    public IReadOnlyList<ImportFault> Faults { get; init; } = [];

    /// <summary>How many more faults there are.</summary>
    public int FaultsNotListed { get; init; }

    /// <summary>Whether there is a table.</summary>
    [MemberNotNullWhen(true, nameof(Table))]
    public bool Succeeded => Table is not null;
}
