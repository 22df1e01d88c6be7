using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Gathers independent errors of a colour in CIELAB and weighs them by CIEDE2000.</summary>
internal struct LabCovariance
{
    private double _ll, _la, _lb, _aa, _ab, _bb;

    /// <summary>Adds one independent error, given as the colours at plus and minus one standard deviation.</summary>
    public void Add(Lab plus, Lab minus)
    {
        var (l, a, b) = ((plus.L - minus.L) / 2, (plus.A - minus.A) / 2, (plus.B - minus.B) / 2);
        Add(l * l, l * a, l * b, a * a, a * b, b * b);
    }

    /// <summary>Adds a covariance.</summary>
    public void Add(double ll, double la, double lb, double aa, double ab, double bb)
    {
        _ll += ll;
        _la += la;
        _lb += lb;
        _aa += aa;
        _ab += ab;
        _bb += bb;
    }

    /// <summary>The expected error around a colour.</summary>
    /// <param name="center">Where.</param>
    /// <param name="residual">An isotropic standard deviation in CIEDE2000 to add.</param>
    public readonly ExpectedError ToExpectedError(Lab center, double residual)
    {
        // Near the centre the squared difference is a quadratic form, dE² = dᵀGd; then E[dE²] = tr(GC) and Var[dE²] = 2·tr(GCGC).
        // G stands lightness apart from a and b, so that row L of GC is one of C, and the others mix rows a and b.
        var g = DeltaE2000.MetricAt(center);
        var (ll, la, lb) = (g.LL * _ll, g.LL * _la, g.LL * _lb);
        var (al, aa, ab) = (g.AA * _la + g.AB * _lb, g.AA * _aa + g.AB * _ab, g.AA * _ab + g.AB * _bb);
        var (bl, ba, bb) = (g.AB * _la + g.BB * _lb, g.AB * _aa + g.BB * _ab, g.AB * _ab + g.BB * _bb);
        var trace = ll + aa + bb;
        var traceOfSquare = ll * ll + aa * aa + bb * bb + 2 * (la * al + lb * bl + ab * ba);

        // The residual is isotropic in that metric: G·C grows by residual²·I.
        var r = residual * residual;
        return ExpectedError.FromVariances(trace + 3 * r, traceOfSquare + 2 * r * trace + 3 * r * r);
    }
}
