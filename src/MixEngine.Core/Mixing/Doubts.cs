namespace MixEngine.Core;

/// <summary>All that may be otherwise with some paints at work, each moved up by one standard deviation: asked so and under the opposite, their answers add up as independent errors.</summary>
internal static class Doubts
{
    /// <summary>Every uncertainty mode once, every dose, and the coats.</summary>
    /// <param name="parts">The paints at work with their doses; a paint that works twice counts once, with its smaller dose.</param>
    /// <param name="coatScatter">Standard deviation of ln(thickness) of a coat; 0 where no coats are at work.</param>
    public static IEnumerable<Perturbation> Of(IReadOnlyList<Part> parts, double coatScatter = 0)
    {
        var doses = new List<Part>(parts.Count);
        foreach (var part in parts)
        {
            var known = doses.FindIndex(other => other.Paint.Id == part.Paint.Id);
            if (known < 0)
            {
                doses.Add(part);
            }
            else if (part.Parts < doses[known].Parts)
            {
                doses[known] = part;
            }
        }

        for (var i = 0; i < doses.Count; i++)
        {
            foreach (var mode in doses[i].Paint.Uncertainty)
            {
                // Paints that were learnt together share their modes.
                if (!AnyCarries(doses, i, mode.Key))
                {
                    yield return Perturbation.OfMode(mode.Key, 1);
                }
            }
        }

        // One paint alone keeps its colour however large its drops are.
        if (doses.Count > 1)
        {
            foreach (var part in doses)
            {
                yield return Perturbation.OfDose(part.Paint.Id, TheoryError.DoseScatter(part));
            }
        }

        if (coatScatter > 0)
        {
            yield return Perturbation.OfCoats(coatScatter);
        }
    }

    private static bool AnyCarries(List<Part> doses, int before, long key)
    {
        for (var i = 0; i < before; i++)
        {
            foreach (var mode in doses[i].Paint.Uncertainty)
            {
                if (mode.Key == key)
                {
                    return true;
                }
            }
        }

        return false;
    }
}
