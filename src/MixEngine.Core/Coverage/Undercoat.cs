namespace MixEngine.Core;

/// <summary>A layer of another paint between primer and paint, so that fewer coats hide.</summary>
/// <param name="Primer">What it goes over.</param>
/// <param name="Paint">What it is of.</param>
/// <param name="Coats">Coats of it.</param>
/// <param name="CoatsAbove">Coats of the paint that then hide it.</param>
public sealed record Undercoat(Primer Primer, Paint Paint, int Coats, int CoatsAbove)
{
    /// <summary>Coats in all.</summary>
    public int Total => Coats + CoatsAbove;

    /// <summary>The paint of the shelf that saves most coats; null where none saves any.</summary>
    /// <param name="primer">What is to be covered.</param>
    /// <param name="recipe">With what.</param>
    /// <param name="shelf">The paints for the undercoat; medium and water are left out.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="coatUm">Dry thickness of one coat of undiluted paint, µm.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <remarks>Ties: fewer coats of the paint itself, then the paint's id. A count is not rounded by how sure it is; see <see cref="CoatsToHide"/>.</remarks>
    public static Undercoat? Best(
        Primer primer, Recipe recipe, IEnumerable<Paint> shelf, View view, double coatUm = Film.ConventionalCoatUm, CancellationToken cancellation = default)
    {
        var most = CoatsToHide.CountOver(primer.Surface.Stack(), recipe, view, coatUm, Core.Coats.Most) ?? Core.Coats.Most + 1;
        Undercoat? best = null;
        foreach (var paint in shelf.Where(paint => paint.Kind == PaintKind.Paint).OrderBy(paint => paint.Id, StringComparer.Ordinal))
        {
            if (recipe.Parts is [{ Paint.Id: var id }] && id == paint.Id)
            {
                continue;
            }

            cancellation.ThrowIfCancellationRequested();

            // One coat of it, two, and so on, as long as that can still save one.
            var beneath = 0;
            foreach (var stack in new Coats(Recipe.Of(paint), Core.Coats.Most, coatUm).Over(primer.Surface.Stack()))
            {
                beneath++;
                var left = (best?.Total ?? most) - beneath;
                if (left < (best is null ? 2 : 1))
                {
                    break;
                }

                if (CoatsToHide.CountOver(stack, recipe, view, coatUm, left) is { } above
                    && (beneath + above < (best?.Total ?? most) || (best is not null && beneath + above == best.Total && above < best.CoatsAbove)))
                {
                    best = new Undercoat(primer, paint, beneath, above);
                }
            }
        }

        return best;
    }
}
