using MixEngine.Interchange;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>Reads a file of swatches and checks what is beyond the file itself: that it speaks of paints on the shelf.</summary>
internal static class SwatchImport
{
    /// <summary>Most bytes of a file.</summary>
    public const int MostBytes = 16 << 20;

    /// <summary>Most swatches kept with one shelf: more than a life's work.</summary>
    public const int MostSwatches = 10_000;

    /// <summary>The swatches with the ids that the file gives them, and what is to be said of it.</summary>
    /// <exception cref="Refusal">Holds every fault found, each with its line.</exception>
    public static (IReadOnlyList<(string? Id, SwatchEvidence Evidence)> Swatches, IReadOnlyList<string> Remarks) Read(V1.ImportSwatchesRequest request, Shelf shelf, CancellationToken cancellationToken)
    {
        var violations = new Violations();
        if (request.Content.Length > MostBytes)
        {
            violations.Add("content", $"The file has {request.Content.Length} bytes; at most {MostBytes} ({MostBytes >> 20} MiB) are read. Split it.");
        }

        var options = new ReadOptions { Scale = ReadScale(request.Scale, violations) };
        violations.ThrowIfAny();
        using var stream = new MemoryStream(request.Content.ToByteArray(), writable: false);
        var read = TableReader.ReadSwatches(stream, request.FileName, options, cancellationToken);
        foreach (var fault in read.Faults)
        {
            violations.Add("content", fault.ToString());
        }

        if (read.FaultsNotListed > 0)
        {
            violations.Add("content", $"{read.FaultsNotListed} more faults are not listed.");
        }

        violations.ThrowIfAny();
        var (swatches, backings) = OfShelf(read.Table!, shelf, violations, cancellationToken);
        if (shelf.Swatches.Count + swatches.Count > MostSwatches)
        {
            violations.Add("content", $"The file has {swatches.Count} swatches, and {shelf.Swatches.Count} are kept already; a shelf may have {MostSwatches}.");
        }

        violations.ThrowIfAny();
        return (swatches, backings.Count == 0 ? read.Notes : [.. read.Notes, $"Taken as what lies beneath others, not as swatches: {string.Join(", ", backings)}."]);
    }

    private static (List<(string? Id, SwatchEvidence Evidence)> Swatches, List<string> Backings) OfShelf(
        SwatchTable table, Shelf shelf, Violations violations, CancellationToken cancellationToken)
    {
        var beneath = table.Rows.Select(row => row.Backing?.SampleId).OfType<string>().ToHashSet(StringComparer.Ordinal);
        var swatches = new List<(string?, SwatchEvidence)>();
        var backings = new List<string>();
        foreach (var row in table.Rows)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var own = new Violations();
            if (RecipeMapping.ReadPigmented(new V1.RecipeInput { Text = row.Of }, "of", shelf, own) is { } recipe)
            {
                swatches.Add((row.SampleId, SwatchRowMapping.FromRow(row, SwatchMapping.PartsOf(recipe), table)));
            }
            else if (beneath.Contains(row.SampleId))
            {
                backings.Add($"'{Shown.Of(row.SampleId)}'");
            }
            else
            {
                foreach (var fault in own.All)
                {
                    violations.Add("content", $"line {row.Line}, of: {fault.Description}");
                }
            }
        }

        return (swatches, backings);
    }

    private static ReflectanceScale? ReadScale(string scale, Violations violations)
    {
        switch (scale.Trim().ToLowerInvariant())
        {
            case "":
                return null;
            case "percent":
                return ReflectanceScale.Percent;
            case "fraction":
                return ReflectanceScale.Fraction;
            default:
                violations.Add("scale", $"'{Shown.Of(scale)}' is no scale; use percent or fraction, or leave it out.");
                return null;
        }
    }
}
