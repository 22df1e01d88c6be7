using MixEngine.V1;

namespace MixEngine.Cli.Tables;

/// <summary>Schemes for scripts: one row a step.</summary>
internal static class SchemeTables
{
    public static CsvTable Of(CheckSchemeResponse answer)
    {
        var table = new CsvTable("name", "figures", "areas");
        table.Add(answer.Name, Cells.Of(answer.Figures), Cells.Of(answer.Areas));
        return table;
    }

    public static CsvTable Of(SchemeResult answer)
    {
        var table = new CsvTable(["figure", "count", "area", "role", "step", "make", "recipe", "where", "coats", "target_delta_e00", "step_delta_e00", .. Cells.ColorHeader, .. Cells.ErrorHeader]);
        foreach (SchemeArea area in answer.Areas)
        {
            foreach (SchemeStep step in area.Steps)
            {
                table.Add(
                [
                    area.Figure, Cells.Of(area.Count), area.Area, area.Role, step.Name,
                    string.Join(" + ", step.Make.Select(part => $"{Cells.Of(part.Parts)} {(part.Pot > 0 ? $"pot {part.Pot}" : part.Paint)}")),
                    Cells.Of(step.Recipe), step.Where, Cells.Of(step.Coats),
                    step.HasTargetDeltaE00 ? Cells.Of(step.TargetDeltaE00) : "",
                    step.HasStepDeltaE00 ? Cells.Of(step.StepDeltaE00) : "",
                    .. Cells.Of(step.Color),
                    .. Cells.Of(step.ExpectedError),
                ]);
            }
        }
        return table;
    }

    public static CsvTable Of(ListSchemeRunsResponse answer)
    {
        var table = new CsvTable("run", "name", "made", "engine_version", "digest");
        foreach (SchemeRun run in answer.Runs)
        {
            table.Add(run.Run.ToString(Numerals.Invariant), run.Name, run.Made, run.EngineVersion, run.Digest);
        }
        return table;
    }

    public static CsvTable Of(ReplaySchemeRunResponse answer)
    {
        var table = new CsvTable("identical", "digest_then", "digest_now", "engine_version_then", "engine_version_now");
        table.Add(Cells.Of(answer.Identical), answer.DigestThen, answer.DigestNow, answer.EngineVersionThen, answer.EngineVersionNow);
        return table;
    }

    public static CsvTable Of(CompareSchemeRunResponse answer)
    {
        var table = new CsvTable("figure", "area", "step", "first", "second", "first_hex", "second_hex", "delta_e00", "words");
        foreach (ComparedStep step in answer.Steps)
        {
            table.Add(step.Figure, step.Area, step.Step, Cells.Of(step.First), Cells.Of(step.Second), step.FirstColor.Hex, step.SecondColor.Hex, Cells.Of(step.DeltaE00), step.Words);
        }
        return table;
    }

    public static CsvTable Of(IEnumerable<MadeMix> mixes)
    {
        var table = new CsvTable("id", "made", "run", "pot", "paint", "drops", "batch", "swatch", "notes");
        foreach (MadeMix mix in mixes)
        {
            foreach (MadePart part in mix.Parts)
            {
                table.Add(
                    mix.Id.ToString(Numerals.Invariant), mix.Made, mix.Run > 0 ? mix.Run.ToString(Numerals.Invariant) : "", mix.Pot > 0 ? Cells.Of(mix.Pot) : "",
                    part.Paint, Cells.Of(part.Drops), part.Batch, mix.Swatch?.Text ?? "", mix.Notes);
            }
        }
        return table;
    }
}
