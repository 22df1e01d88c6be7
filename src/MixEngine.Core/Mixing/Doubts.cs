namespace MixEngine.Core;

/// <summary>All that may be otherwise with some paints at work, each moved up by one standard deviation: asked so and under the opposite, their answers add up as independent errors.</summary>
internal static class Doubts
{
    /// <summary>Every uncertainty mode once, every dose, and the coats.</summary>
    /// <param name="parts">The paints at work with their doses; a paint that works twice counts once, with its smaller dose.</param>
    /// <param name="coatScatter">Standard deviation of ln(thickness) of a coat; 0 where no coats are at work.</param>
    public static List<Perturbation> Of(ReadOnlySpan<Part> parts, double coatScatter = 0)
    {
        var doses = Distinct(parts);
        var doubts = new List<Perturbation>(MostOf(doses));
        for (var i = 0; i < doses.Length; i++)
        {
            foreach (var mode in doses[i].Paint.Uncertainty)
            {
                // Paints that were learnt together share their modes.
                if (!AnyCarries(doses[..i], mode.Key))
                {
                    doubts.Add(Perturbation.OfMode(mode.Key, 1));
                }
            }
        }

        // One paint alone keeps its colour however large its drops are.
        if (doses.Length > 1)
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

    private static int MostOf(ReadOnlySpan<Part> doses)
    {
        var most = 1;
        foreach (var dose in doses)
        {
            most += dose.Paint.Uncertainty.Length + 1;
        }

        return most;
    }

    // Those of one recipe are so already.
    private static ReadOnlySpan<Part> Distinct(ReadOnlySpan<Part> parts)
    {
        for (var i = 1; i < parts.Length; i++)
        {
            if (PlaceOf(parts[i].Paint, parts[..i]) >= 0)
            {
                return Smallest(parts);
            }
        }

        return parts;
    }

    private static ReadOnlySpan<Part> Smallest(ReadOnlySpan<Part> parts)
    {
        var (doses, count) = (new Part[parts.Length], 0);
        foreach (var part in parts)
        {
            var known = PlaceOf(part.Paint, doses.AsSpan(0, count));
            if (known < 0)
            {
                doses[count++] = part;
            }
            else if (part.Parts < doses[known].Parts)
            {
                doses[known] = part;
            }
        }

        return doses.AsSpan(0, count);
    }

    private static int PlaceOf(Paint paint, ReadOnlySpan<Part> parts)
    {
        var place = parts.Length - 1;
        while (place >= 0 && parts[place].Paint.Id != paint.Id)
        {
            place--;
        }

        return place;
    }

    private static bool AnyCarries(ReadOnlySpan<Part> doses, long key)
    {
        foreach (var dose in doses)
        {
            foreach (var mode in dose.Paint.Uncertainty)
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
