using System.Globalization;
using System.Net;
using System.Text;
using MixEngine.Core;

namespace MixEngine.Reports;

/// <summary>The cards as one HTML page without scripts or outside files: an overview, then one figure to a printed page.</summary>
public static class HtmlCards
{
    private const string Style = """
        @page { size: A4; margin: 11mm }
        * { box-sizing: border-box }
        body { font: 15px/1.3 system-ui, "DejaVu Sans", sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 190mm; -webkit-print-color-adjust: exact; print-color-adjust: exact }
        section { break-before: page; padding: 6mm 0 }
        section:first-child { break-before: auto }
        h1 { font-size: 34px; margin: 0; line-height: 1.1 }
        h1 b { float: right; font-size: 44px }
        h2 { font-size: 22px; margin: 14px 0 3px; border-bottom: 3px solid #000; break-after: avoid }
        h2 small { font-weight: normal; font-size: 14px }
        .round { font-size: 20px; font-weight: bold; margin: 6px 0 }
        .step, .pot { display: grid; grid-template-columns: 34px 92px 1fr; gap: 10px; align-items: center; padding: 4px 0; border-bottom: 1px solid #999; break-inside: avoid }
        .pot { grid-template-columns: 74px 92px 1fr }
        .number { font-size: 24px; font-weight: bold; text-align: center }
        .swatch { height: 50px; border: 2px solid #000; font-size: 12px; line-height: 1.2; padding: 3px 5px; border-radius: 4px }
        .dark { color: #fff } .light { color: #000 }
        .make { font-size: 19px } .make b { font-size: 28px }
        .fine { font-size: 12.5px } .note { font-size: 13px; margin: 3px 0; font-style: italic }
        .caution { border: 2px solid #000; padding: 5px 9px; margin: 6px 0; font-size: 13.5px }
        table { border-collapse: collapse; width: 100%; font-size: 13px } td, th { border-bottom: 1px solid #999; padding: 3px 6px; text-align: left; vertical-align: top } td.n { text-align: right; font-size: 18px; font-weight: bold }
        """;

    /// <summary>Writes the page.</summary>
    /// <param name="book">The cards.</param>
    /// <param name="plan">The plan they are of.</param>
    /// <param name="elsewhere">The same from another shelf, to be put beside it; null: not asked for.</param>
    public static string Write(CardBook book, SchemePlan plan, SchemeComparison? elsewhere = null)
    {
        var html = new StringBuilder();
        html.Append(CultureInfo.InvariantCulture, $"<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>{E(book.Title)}</title><style>{Style}</style></head><body>\n");
        Overview(html, book, plan);
        foreach (var figure in book.Figures)
        {
            Figure(html, figure);
        }

        Elsewhere(html, elsewhere);
        return html.Append("</body></html>\n").ToString();
    }

    private static void Overview(StringBuilder html, CardBook book, SchemePlan plan)
    {
        html.Append(CultureInfo.InvariantCulture, $"<section><h1>{E(book.Title)}</h1>\n<p class=\"round\">{plan.Scheme.Figures.Sum(figure => figure.Count)} figures, {plan.Areas.Count} areas, {plan.Palette.Bottles.Count} bottles, {book.Pots.Count} pots</p>\n");
        Notes(html, book.Remarks);
        html.Append("<h2>Bottles</h2><table><tr><th></th><th>paint</th><th>drops</th><th>ml</th><th></th></tr>\n");
        foreach (var bottle in book.Bottles)
        {
            html.Append(CultureInfo.InvariantCulture, $"<tr><td>{Swatch(bottle.Color, 70)}</td><td><b>{E(bottle.Name)}</b> {E(bottle.Range)}{(bottle.OnTable ? " (on the table)" : "")}</td><td class=\"n\">{bottle.Drops:0}</td><td class=\"n\">{bottle.Ml:0.0}</td><td>{E(bottle.Without)}</td></tr>\n");
        }

        html.Append("</table>\n");
        Notes(html, plan.NotNeeded.Count > 0 ? [$"Not needed, and may stay in the drawer: {string.Join(", ", plan.NotNeeded.Select(paint => paint.Name))}."] : []);
        html.Append("<h2>Fewer or more bottles <small>worst difference that could be avoided</small></h2><table><tr><th>bottles</th><th>worst dE00</th></tr>\n");
        foreach (var point in plan.Palette.TradeOff)
        {
            html.Append(CultureInfo.InvariantCulture, $"<tr><td class=\"n\">{point.Bottles}{(point.Bottles == plan.Palette.Bottles.Count ? " (this plan)" : "")}</td><td class=\"n\">{point.WorstDeltaE00:0.0}{(point.Proven ? "" : " or less")}</td></tr>\n");
        }

        html.Append("</table>\n");
        if (plan.ToBuy.Count > 0)
        {
            html.Append("<h2>What to buy next</h2><table><tr><th>paint</th><th>colours nearer</th><th>of them reached</th><th>helps most at</th></tr>\n");
            foreach (var next in plan.ToBuy.Take(5))
            {
                html.Append(CultureInfo.InvariantCulture, $"<tr><td><b>{E(next.Paint.Name)}</b></td><td class=\"n\">{next.Improved}</td><td class=\"n\">{next.Reached}</td><td>{E(next.Best)}</td></tr>\n");
            }

            html.Append("</table>\n");
        }

        html.Append("<h2>Take care</h2>\n");
        foreach (var caution in book.Cautions)
        {
            html.Append(CultureInfo.InvariantCulture, $"<p class=\"caution\"><b>{E(caution.About)}</b> {E(caution.Words)}</p>\n");
        }

        html.Append("</section>\n");
    }

    private static void Figure(StringBuilder html, FigureCard figure)
    {
        html.Append(CultureInfo.InvariantCulture, $"<section><h1><b>&#215; {figure.Count}</b>{E(figure.Name)}</h1>\n");
        if (figure.Primer is { } primer)
        {
            html.Append(CultureInfo.InvariantCulture, $"<p class=\"round\">First: {E(primer)}</p>\n");
        }

        if (figure.Pots.Count > 0)
        {
            html.Append("<h2>Pots <small>parts; below them the drops for everything that this pot paints in the scheme</small></h2>\n");
        }

        foreach (var pot in figure.Pots)
        {
            html.Append(CultureInfo.InvariantCulture, $"<div class=\"pot\"><div class=\"number\">pot {pot.Number}</div>{Swatch(pot.Color)}<div><div class=\"make\">{Make(pot.Parts)}</div><div class=\"fine\">drops <b>{E(pot.DropsText)}</b> = {pot.Ml:0.0#} ml &#183; {E(pot.Percent)}{Tail(pot.Rounding)}{Tail(pot.Warning)}</div></div></div>\n");
        }

        foreach (var area in figure.Areas)
        {
            html.Append(CultureInfo.InvariantCulture, $"<h2>{E(area.Name)} <small>{E(area.Role)}{(area.SameAs is { } same ? $", as {E(same)}" : "")}</small></h2>\n");
            foreach (var step in area.Steps)
            {
                html.Append(CultureInfo.InvariantCulture, $"<div class=\"step\"><div class=\"number\">{step.Number}</div>{Swatch(step.Color)}<div><div class=\"make\">{(step.Parts.Count == 1 ? $"<b>{E(step.Parts[0].Of)}</b>" : Make(step.Parts))}{(step.Coats > 1 ? $" &#215; {step.Coats} coats" : "")}</div><div><b>{E(step.Name)}</b>: {E(step.Where)}</div><div class=\"fine\">{E(step.Color.Words)} &#183; {E(step.Color.LabText)} &#183; {E(step.Percent)} &#183; {E(step.Sure)}{Tail(step.Target)}</div></div></div>\n");
            }

            Notes(html, area.Remarks);
        }

        html.Append(figure.Varnish is { } varnish ? $"<p class=\"round\">Last: {E(varnish)}</p></section>\n" : "</section>\n");
    }

    private static void Elsewhere(StringBuilder html, SchemeComparison? elsewhere)
    {
        if (elsewhere is null)
        {
            return;
        }

        html.Append("<section><h1>From the other shelf</h1><table><tr><th>step</th><th>here</th><th></th><th>there</th><th></th><th>loss, dE00</th></tr>\n");
        foreach (var step in elsewhere.Steps)
        {
            html.Append(CultureInfo.InvariantCulture, $"<tr><td>{E(step.Area.Key)} / {E(step.First.Name)}</td><td>{Swatch(CardColor.Of(step.First.Appearance), 70)}</td><td>{E(CardStep.PercentOf(step.First.Recipe))}</td><td>{Swatch(CardColor.Of(step.Second.Appearance), 70)}</td><td>{E(CardStep.PercentOf(step.Second.Recipe))}</td><td class=\"n\">{step.DeltaE00:0.0}<br><small>{E(step.Words)}</small></td></tr>\n");
        }

        html.Append("</table></section>\n");
    }

    private static void Notes(StringBuilder html, IEnumerable<string> remarks)
    {
        foreach (var remark in remarks)
        {
            html.Append(CultureInfo.InvariantCulture, $"<p class=\"note\">{E(remark)}</p>\n");
        }
    }

    private static string Swatch(CardColor? color, int width = 92) => color is null
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $"<div class=\"swatch {(color.IsDark ? "dark" : "light")}\" style=\"background:{color.Hex};width:{width}px\"><b>L {color.Lab.L:0}</b><br>{E(color.HexText)}</div>");

    private static string Make(IReadOnlyList<(string Count, string Of)> parts) => string.Join(" + ", parts.Select(part => $"<b>{E(part.Count)}</b> {E(part.Of)}"));

    private static string Tail(string text) => text.Length > 0 ? $" &#183; {E(text)}" : "";

    private static string E(string text) => WebUtility.HtmlEncode(text);
}
