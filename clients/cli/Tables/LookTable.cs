using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class LookTable
{
    public static CsvTable Of(LightResponse answer) => Of(answer.Looks, answer.Matches);

    /// <summary>A row for each step in each look; with a target, how far it is from it there.</summary>
    public static CsvTable Of(IReadOnlyList<RampLook> looks, IReadOnlyList<LampMatch>? matches = null)
    {
        bool matched = matches is { Count: > 0 };
        var table = new CsvTable(["look", "step", "recipe", "shift_delta_e00", "step_before_delta_e00", "step_delta_e00", .. Cells.ColorHeader, .. matched ? ["target_delta_e00", "metamerism_index"] : Array.Empty<string>()]);
        for (int place = 0; place < looks.Count; place++)
        {
            RampLook look = looks[place];
            foreach (RampLookStep step in look.Steps)
            {
                // The matches come in the order of the recipes, each under every lamp.
                LampMatch? match = matches?.Where(match => match.RecipeNumber == step.Number).ElementAtOrDefault(place);
                table.Add(
                [
                    look.Name, Cells.Of(step.Number), Cells.Of(step.Recipe), Cells.Of(step.ShiftDeltaE00),
                    step.HasStepBeforeDeltaE00 ? Cells.Of(step.StepBeforeDeltaE00) : "",
                    step.HasStepDeltaE00 ? Cells.Of(step.StepDeltaE00) : "",
                    .. Cells.Of(step.After),
                    .. matched ? [match is null ? "" : Cells.Of(match.DeltaE00), match is null ? "" : Cells.Of(match.MetamerismIndex)] : Array.Empty<string>(),
                ]);
            }
        }
        return table;
    }
}
