namespace MixEngine.Core;

/// <summary>How thick a recipe must lie to hide a surface, in coats not rounded to whole ones, and how far that may be off.</summary>
internal sealed class HidingThickness(PaintedSurface surface, Recipe recipe, View view, double coatUm)
{
    private const double Z95 = 1.959964;
    private const double LeastLog = -7;
    private const double MostLog = 14;

    /// <summary>The ends of the 95 % interval of the coats; null where the paint may never hide.</summary>
    /// <remarks>Errors add up as independent ones of ln(thickness): every mode, dose and brush is moved by one standard deviation.</remarks>
    public (double Best, double Worst)? Interval()
    {
        if (LogCoats(Perturbation.None) is not { } believed)
        {
            return null;
        }

        Part[] parts = [.. surface.Parts, .. recipe.Parts];
        var variance = 0.0;
        foreach (var key in parts.SelectMany(part => part.Paint.Uncertainty).Select(mode => mode.Key).Distinct())
        {
            variance += Square(believed, Perturbation.OfMode(key, 1), Perturbation.OfMode(key, -1));
        }

        foreach (var part in parts.Length > 1 ? parts.DistinctBy(part => part.Paint.Id) : [])
        {
            var scatter = DropScatter.Of(part);
            variance += Square(believed, Perturbation.OfDose(part.Paint.Id, scatter), Perturbation.OfDose(part.Paint.Id, -scatter));
        }

        // A brush that lays on more needs so many coats fewer.
        variance += Film.ThicknessScatter * Film.ThicknessScatter;
        var half = Z95 * Math.Sqrt(variance);
        return (Math.Exp(believed - half), Math.Exp(believed + half));
    }

    // Half of the way between both sides, squared; the whole way of one side where the other never hides.
    private double Square(double believed, Perturbation plus, Perturbation minus)
    {
        var deviation = (LogCoats(plus), LogCoats(minus)) switch
        {
            ({ } up, { } down) => (up - down) / 2,
            ({ } up, null) => up - believed,
            (null, { } down) => down - believed,
            _ => MostLog - believed,
        };
        return deviation * deviation;
    }

    /// <summary>ln of the coats; null when a million are not enough.</summary>
    private double? LogCoats(Perturbation perturbation)
    {
        var mixture = Mixture.Of(recipe, perturbation);
        var top = view.SurfaceOver(mixture.Surface, mixture.Finish);
        var hiding = view.LabThrough(top, mixture.OpaqueInternal());
        var beneath = surface.Stack(perturbation).Films;
        var oneCoat = Film.Coat(mixture, coatUm).ThicknessUm;

        // n coats of x are one film of n·x.
        bool Hides(double logCoats) =>
            Hidden.Is(view.LabThrough(top, beneath.Under(new Film(mixture.Optics, oneCoat * Math.Exp(logCoats))).InternalReflectance), hiding);

        var (low, high) = (LeastLog, MostLog);
        if (!Hides(high))
        {
            return null;
        }

        while (high - low > 1e-3)
        {
            var middle = (low + high) / 2;
            (low, high) = Hides(middle) ? (low, middle) : (middle, high);
        }

        return high;
    }
}
