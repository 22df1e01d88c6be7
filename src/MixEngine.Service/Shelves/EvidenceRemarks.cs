using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>What had to be assumed or bent to make paints of what was entered, said once for all the paints of which it holds.</summary>
internal static class EvidenceRemarks
{
    private const int MostNames = 3;

    /// <summary>Derives each paint, so that nothing is stored of which no paint can be made, and gathers the remarks.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<PaintEvidence> paints, CancellationToken cancellationToken) =>
        paints
            .SelectMany(evidence =>
            {
                cancellationToken.ThrowIfCancellationRequested();
                return PaintFromEvidence.Derive(new StoredPaint("", evidence)).Remarks.Select(remark => (Remark: remark, evidence.Name));
            })
            .GroupBy(pair => pair.Remark, pair => pair.Name)
            .Select(same => $"{Listed([.. same])}: {same.Key}");

    private static string Listed(string[] names) =>
        string.Join(", ", names.Take(MostNames)) + (names.Length > MostNames ? $" and {names.Length - MostNames} more" : "");
}
