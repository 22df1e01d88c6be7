using Google.Protobuf;
using Grpc.Core;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>Reads a painter's table and checks what is beyond the table itself.</summary>
internal static class ShelfImport
{
    /// <summary>Most paints on one shelf: far more than anybody owns.</summary>
    public const int MostPaints = 5000;

    /// <summary>The bottles of the table, and what is to be said of it.</summary>
    /// <exception cref="Refusal">Holds every fault found, each with its line.</exception>
    public static (IReadOnlyList<PaintEvidence> Paints, IReadOnlyList<string> Remarks) Read(ByteString content, string fileName, CancellationToken cancellationToken)
    {
        if (content.Length > ImportLimits.ShelfBytes)
        {
            throw new Refusal(StatusCode.InvalidArgument, "content", $"The file has {content.Length} bytes; at most {ImportLimits.ShelfBytes} ({ImportLimits.ShelfBytes >> 20} MiB) are read. Split the table.");
        }

        using var stream = new MemoryStream(content.ToByteArray(), writable: false);
        var read = TableReader.ReadShelf(stream, fileName, cancellationToken: cancellationToken);
        var violations = new Violations();
        foreach (var fault in read.Faults)
        {
            violations.Add("content", fault.ToString());
        }

        if (read.FaultsNotListed > 0)
        {
            violations.Add("content", $"{read.FaultsNotListed} more faults are not listed.");
        }

        CheckRows(read.Table?.Rows ?? [], violations);
        violations.ThrowIfAny();
        return ([.. read.Table!.Rows.Select(EvidenceMapping.FromRow)], read.Notes);
    }

    private static void CheckRows(IReadOnlyList<ShelfRow> rows, Violations violations)
    {
        if (rows.Count > MostPaints)
        {
            violations.Add("content", $"The table has {rows.Count} paints; a shelf may have {MostPaints}.");
        }

        // What every recipe may call medium or water must be that.
        foreach (var row in rows)
        {
            foreach (var (reserved, kind) in new[] { (Paint.Medium, StatedKind.Medium), (Paint.Water, StatedKind.Water) })
            {
                if (string.Equals(row.Name.Trim(), reserved.Name, StringComparison.OrdinalIgnoreCase) && row.Kind != kind)
                {
                    violations.Add("content", $"line {row.Line}, name: '{row.Name}' means {reserved.Name} in every recipe. Give the paint another name, or the kind {reserved.Name}.");
                }
            }
        }
    }
}
