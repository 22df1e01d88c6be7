using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The fit as it would be with one more swatch, if certain paints were the true ones and the reading came out as they have it.</summary>
internal sealed class WhatIf
{
    private readonly Dictionary<string, Paint> _paints;
    private readonly SwatchShelf _shelf;
    private readonly JointFit _fit;

    /// <summary>Takes what is known, one more swatch or none, and paints that might be the true ones.</summary>
    public WhatIf(Characterization learnt, IReadOnlyList<Paint> supposed, IReadOnlyList<SwatchPart>? parts)
    {
        _paints = supposed.ToDictionary(paint => paint.Id);
        var swatches = learnt.Fits.Select(fit => fit.Swatch);
        if (parts is not null)
        {
            var recipe = new Recipe(parts.Select(part => new Part(_paints[part.PaintId], part.Parts)));
            var expected = Prediction.AppearanceOf(recipe, new View(ViewingCondition.D65Degree10));

            // Read as the others were: as spectra where there are spectra.
            var spectral = learnt.Fits.FirstOrDefault(fit => fit.Swatch.Color.Spectrum is not null)?.Swatch;
            var like = spectral ?? learnt.Fits.FirstOrDefault()?.Swatch;
            swatches = swatches.Append(new Swatch
            {
                Id = "what if",
                Parts = parts,
                Color = spectral is not null
                    ? MeasuredColor.Of(expected.Reflectance, spectral.Color.FirstNm, spectral.Color.LastNm)
                    : MeasuredColor.Of(expected.Lab, ViewingCondition.D65Degree10),
                Dosing = like?.Dosing ?? Dosing.Drops,
                Specular = like?.Specular ?? SpecularMode.NotStated,
                Finish = like?.Finish,
            });
        }

        _shelf = new SwatchShelf([.. learnt.Entered], [.. swatches], learnt.Believed);
        _fit = new JointFit(_shelf.PaintBeliefs, _shelf.Samples, _shelf.Surfaces, learnt.Believed);
        Characterization.Place(supposed, _shelf, _fit);
    }

    /// <summary>Mean 95 % error, CIEDE2000, of mixtures.</summary>
    public double MeanBound(IReadOnlyList<SwatchPart>[] mixtures, CancellationToken cancel) => mixtures.Average(parts =>
    {
        var view = new View(ViewingCondition.D65Degree10);
        var recipe = new Recipe(parts.Select(part => new Part(_paints[part.PaintId], part.Parts)));
        var covariance = new LabCovariance();
        var center = Prediction.LabOf(recipe, view);

        // Var = gᵀA⁻¹g for each of L, a, b: half solves are not at hand, so A⁻¹g is found for each and the covariance put together.
        var slopes = Slopes(recipe, view);
        var solved = _fit.Solve(slopes, cancel);
        double Of(int i, int j) => LowerTriangle.Dot(slopes[i].Values, solved[j].Values);
        covariance.Add(Of(0, 0), Of(0, 1), Of(0, 2), Of(1, 1), Of(1, 2), Of(2, 2));
        return covariance.ToExpectedError(center, 0).Bound;
    });

    // How L, a, b move with ln S and ln(K/S) of each band of each paint.
    private Estimate[] Slopes(Recipe recipe, View view)
    {
        var weights = TristimulusWeights.For(view.Condition);
        var mixture = Mixture.Of(recipe);
        ReadOnlySpan<double> k = mixture.Optics.K, s = mixture.Optics.S;
        var inside = mixture.OpaqueInternal();
        var seen = new double[SpectralGrid.Bands];
        for (var band = 0; band < seen.Length; band++)
        {
            seen[band] = mixture.Surface.ToMeasured(inside[band]);
        }

        Lab Look(ReadOnlySpan<double> r) => Lab.FromXyz(weights.ToXyz(r), weights.White);
        var slopes = new[] { _fit.Current.Zero(), _fit.Current.Zero(), _fit.Current.Zero() };
        var dry = recipe.Parts.Sum(part => part.Parts * part.Paint.VolumeSolids);
        for (var band = 0; band < seen.Length; band++)
        {
            const double step = 1e-4;
            var was = seen[band];
            seen[band] = was + step;
            var plus = Look(seen);
            seen[band] = was - step;
            var minus = Look(seen);
            seen[band] = was;
            var byRatio = -inside[band] * (1 - inside[band]) / (1 + inside[band]) * mixture.Surface.Slope(inside[band]) / (2 * step);
            double[] byLab = [(plus.L - minus.L) * byRatio, (plus.A - minus.A) * byRatio, (plus.B - minus.B) * byRatio];
            foreach (var part in recipe.Parts)
            {
                if (_shelf.PlaceOf(part.Paint.Id) is { } place)
                {
                    var share = part.Parts * part.Paint.VolumeSolids / dry;
                    var (ofK, ofS) = (share * part.Paint.Optics.K[band] / k[band], share * part.Paint.Optics.S[band] / s[band]);
                    for (var i = 0; i < 3; i++)
                    {
                        slopes[i].Scattering(place)[band] += byLab[i] * (ofK - ofS);
                        slopes[i].Ratio(place)[band] += byLab[i] * ofK;
                    }
                }
            }
        }

        return slopes;
    }
}
