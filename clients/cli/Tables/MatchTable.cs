using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class MatchTable
{
    public static CsvTable Of(MatchResponse answer)
    {
        Spectrum? first = answer.Matches.FirstOrDefault()?.Reflectance;
        var table = new CsvTable(["rank", "recipe", "delta_e00", "reached", .. Cells.ColorHeader, .. Cells.ErrorHeader, "proven", "added", "worst_light", "worst_light_delta_e00", "drop_too_many", .. Cells.ReflectanceHeader(first)]);
        for (int i = 0; i < answer.Matches.Count; i++)
        {
            Match match = answer.Matches[i];
            table.Add(
            [
                Cells.Of(i + 1),
                Cells.Of(match.Recipe),
                match.HasDeltaE00 ? Cells.Of(match.DeltaE00) : "",
                answer.HasReached ? Cells.Of(answer.Reached) : "",
                .. Cells.Of(match.Color),
                .. Cells.Of(match.ExpectedError),
                answer.HasProven ? Cells.Of(answer.Proven) : "",
                Cells.Of(match.Added),
                match.WorstLight?.Light ?? "",
                match.WorstLight is { HasDeltaE00: true } worst ? Cells.Of(worst.DeltaE00) : "",
                match.DropTooMany?.Words ?? "",
                .. Cells.Of(match.Reflectance),
            ]);
        }
        return table;
    }
}
