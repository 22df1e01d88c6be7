using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How far the truth may lie from a stated colour, as CIEDE2000 differences.</summary>
/// <param name="Likely">The truth lies within it with probability 0.68.</param>
/// <param name="Bound">The truth lies within it with probability 0.95.</param>
public readonly record struct ExpectedError(double Likely, double Bound)
{
    /// <summary>
    /// What the two-constant theory itself leaves unexplained in a mixture, as the standard deviation of each of three independent
    /// CIEDE2000 directions.
    /// </summary>
    public const double ModelResidual = 0.6;

    private static readonly ChiSquareQuantile LikelyQuantile = new(0.68), BoundQuantile = new(0.95);

    /// <summary>The same in a word a painter can act on.</summary>
    public string Words => Bound switch
    {
        < 1.5 => "as good as certain",
        < 3 => "close",
        < 6 => "a fair guide",
        < 12 => "a rough guide",
        _ => "a guess: make a swatch",
    };

    /// <summary>
    /// Propagates what is uncertain into colours that are asked together, such as one after each coat: every uncertainty mode of the paints and every dose is moved by one standard deviation
    /// to either side, the colours are asked again, and the answers add up as independent errors.
    /// </summary>
    /// <param name="parts">The paints at work with their doses; a paint that works twice counts once, with its smaller dose.</param>
    /// <param name="outcomes">The colours under a perturbation, always as many.</param>
    /// <param name="residual">What theory leaves unexplained, as in <see cref="ModelResidual"/>.</param>
    /// <param name="coatScatter">Standard deviation of ln(thickness) of a coat; 0 where no coats are at work.</param>
    public static ExpectedError[] Propagate(IReadOnlyList<Part> parts, Func<Perturbation, Lab[]> outcomes, double residual = ModelResidual, double coatScatter = 0)
    {
        var centers = outcomes(Perturbation.None);
        var covariances = new LabCovariance[centers.Length];
        foreach (var doubt in Doubts.Of([.. parts], coatScatter))
        {
            var (plus, minus) = (outcomes(doubt), outcomes(doubt.Opposite));
            for (var i = 0; i < covariances.Length; i++)
            {
                covariances[i].Add(plus[i], minus[i]);
            }
        }

        return [.. covariances.Zip(centers, (covariance, center) => covariance.ToExpectedError(center, residual))];
    }

    /// <summary>The error whose squared difference is a sum of three independent squared normals, with the sum of their variances and of the squares of these.</summary>
    /// <remarks>The sum is taken as a scaled chi-square of the same mean and variance [Satterthwaite1946].</remarks>
    internal static ExpectedError FromVariances(double sum, double sumOfSquares)
    {
        if (!(sum > 0))
        {
            return new ExpectedError(0, 0);
        }

        var freedom = sum * sum / sumOfSquares;
        var scale = sumOfSquares / sum;
        return new ExpectedError(
            Math.Sqrt(scale * LikelyQuantile.At(freedom)),
            Math.Sqrt(scale * BoundQuantile.At(freedom)));
    }
}
