using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

/// <summary>Schemes for a person.</summary>
internal static class SchemePage
{
    private const int MostNamed = 6;

    public static void Write(Page page, CheckSchemeResponse answer) =>
        page.Line($"{answer.Name}: {answer.Figures} figures, {answer.Areas} areas. Nothing wrong with it.");

    public static void Write(Page page, SchemeSummary summary)
    {
        page.Line($"{summary.Name}   (run {summary.Run})");
        page.Line($"  {summary.Figures} figures, {summary.Areas} areas, {summary.Bottles.Count(bottle => bottle.Kind == "paint")} bottles, {summary.Pots.Count} pots");
        page.Line();
        page.Line("  Bottles, the most used first");
        foreach (SchemeBottle bottle in summary.Bottles)
        {
            string without = bottle.CouldGo ? "   could go" : "";
            page.Line($"    {bottle.Paint,-24} {bottle.Drops.ToString("0", Numerals.Invariant),5} drops {bottle.Ml.ToString("0.0", Numerals.Invariant),6} ml{(bottle.OnTable ? "   on the table" : "")}{without}");
        }
        if (summary.NotNeeded.Count > 0)
        {
            page.Line();
            page.Prose($"Not needed, and may stay in the drawer: {string.Join(", ", summary.NotNeeded)}.", 2);
        }
        page.Line();
        page.Line("  Fewer or more bottles: the worst difference that could be avoided");
        foreach (TradeOffPoint point in summary.TradeOff)
        {
            page.Line($"    {point.Bottles,3} bottles  {point.WorstDeltaE00.ToString("0.0", Numerals.Invariant),5} dE00{(point.Proven ? "" : " or less")}");
        }
        if (summary.ToBuy.Count > 0)
        {
            PaintToBuy best = summary.ToBuy[0];
            page.Line();
            page.Prose($"To buy next: {best.Paint}. It brings {best.Improved} colours nearer, {best.Reached} of them within reach; it helps most at {best.HelpsMostAt}.", 2);
        }
        if (summary.NotReached.Count > 0)
        {
            page.Line();
            page.Prose($"Not reached, the nearest is on the card: {string.Join("; ", summary.NotReached.Take(MostNamed))}{(summary.NotReached.Count > MostNamed ? $"; and {summary.NotReached.Count - MostNamed} more" : "")}.", 2);
        }
        if (summary.OtherShelf.Count > 0)
        {
            WriteLosses(page, summary.OtherShelf);
        }
        page.Line();
        foreach (SchemeCaution caution in summary.Cautions)
        {
            page.Prose($"{caution.About}: {caution.Words}", 10, "  Care: ");
        }
        page.Remarks(summary.Bottles.SelectMany(bottle => bottle.Remarks.Select(remark => $"{bottle.Paint}: {remark}")).Concat(summary.Remarks));
    }

    public static void WriteWhere(Page page, string folder)
    {
        page.Line();
        page.Line($"  The cards are in {Path.GetFullPath(folder)}");
        page.Line("    cards.html, cards.pdf   an overview, then one figure after the other");
        page.Line("    strips/                 the swatches of each figure");
        page.Line("    scheme.xlsx, tables/    the same as tables;  scheme.json  for scripts");
    }

    public static void Write(Page page, ListSchemeRunsResponse answer)
    {
        foreach (SchemeRun run in answer.Runs)
        {
            page.Line($"  {run.Run,5}  {run.Made[..16].Replace('T', ' ')}  {run.Name}   (engine {run.EngineVersion})");
        }
        if (answer.Runs.Count == 0)
        {
            page.Line("No scheme was run yet. Begin with: mixengine scheme run army.toml --out cards");
        }
    }

    public static void Write(Page page, ReplaySchemeRunResponse answer) => page.Line(answer.Identical
        ? $"Every bit of the answer is the same ({answer.DigestNow[..12]})."
        : $"The answer is another now: {answer.DigestThen[..12]} then (engine {answer.EngineVersionThen}), {answer.DigestNow[..12]} now (engine {answer.EngineVersionNow}).");

    public static void Write(Page page, CompareSchemeRunResponse answer)
    {
        page.Line(answer.Moved == 0 ? "Nothing moved." : $"{answer.Moved} of {answer.Steps.Count} steps moved, the worst by {answer.WorstDeltaE00.ToString("0.0", Numerals.Invariant)} dE00.");
        WriteLosses(page, answer.Steps);
    }

    private static void WriteLosses(Page page, IReadOnlyCollection<ComparedStep> steps)
    {
        ComparedStep[] moved = [.. steps.Where(step => step.First.Text != step.Second.Text || step.DeltaE00 > 0)];
        if (moved.Length == 0)
        {
            return;
        }
        page.Line();
        page.Line("  Step by step: here, there, and the difference");
        foreach (ComparedStep step in moved)
        {
            page.Line($"    {step.Figure} / {step.Area} / {step.Step}: {step.DeltaE00.ToString("0.0", Numerals.Invariant)} dE00, {step.Words}");
            page.Beside("      ", step.FirstColor.Hex, $"{step.FirstColor.Hex}  {step.First.Text}");
            page.Beside("      ", step.SecondColor.Hex, $"{step.SecondColor.Hex}  {step.Second.Text}");
        }
    }
}
