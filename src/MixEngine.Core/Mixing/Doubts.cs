namespace MixEngine.Core;

/// <summary>All that may be otherwise with some paints at work, each moved up by one standard deviation: asked so and under the opposite, their answers add up as independent errors.</summary>
internal static class Doubts
{
    /// <summary>Every uncertainty mode once, every dose, and the coats.</summary>
    /// <param name="parts">The paints at work with their doses; a paint that works twice counts once, with its smaller dose.</param>
    /// <param name="coatScatter">Standard deviation of ln(thickness) of a coat; 0 where no coats are at work.</param>
    public static List<Perturbation> Of(IReadOnlyList<Part> parts, double coatScatter = 0)
    {
        var doses = Distinct(parts);
        var doubts = new List<Perturbation>(doses.Sum(part => part.Paint.Uncertainty.Length) + doses.Count + 1);
        for (var i = 0; i < doses.Count; i++)
        {
            foreach (var mode in doses[i].Paint.Uncertainty)
            {
                // Paints that were learnt together share their modes.
                if (!AnyCarries(doses, i, mode.Key))
                {
                    doubts.Add(Perturbation.OfMode(mode.Key, 1));
                }
            }
        }

        // One paint alone keeps its colour however large its drops are.
        if (doses.Count > 1)
        {
            foreach (var part in doses)
            {
                doubts.Add(Perturbation.OfDose(part.Paint.Id, TheoryError.DoseScatter(part)));
            }
        }

        if (coatScatter > 0)
        {
            doubts.Add(Perturbation.OfCoats(coatScatter));
        }

        return doubts;
    }

    private static List<Part> Distinct(IReadOnlyList<Part> parts)
    {
        var doses = new List<Part>(parts.Count);
        foreach (var part in parts)
        {
            var known = doses.Count - 1;
            while (known >= 0 && doses[known].Paint.Id != part.Paint.Id)
            {
                known--;
            }

            if (known < 0)
            {
                doses.Add(part);
            }
            else if (part.Parts < doses[known].Parts)
            {
                doses[known] = part;
            }
        }

        return doses;
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
