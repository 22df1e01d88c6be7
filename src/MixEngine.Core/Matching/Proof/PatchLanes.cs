using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Sixteen times three paints, each in all compositions of a cell of three generators at once. Between three mixtures the three sums lie on a
/// nearly flat patch: it must come near the limits, not only its shadow on each axis.
/// </summary>
/// <remarks>
/// The patch is the plane through the sums of the generators, give or take what the light of each band departs from a straight line. With g as
/// a function γ of ln(K/S), and K and S linear along a line, g″ = γ″·(κ - σ)² - γ′·(κ - σ)(κ + σ), where κ and σ are the relative
/// changes of K and S; |γ′| ≤ min(0.3707, g) and |γ″| ≤ min(0.1023, g) (computed, and held by a test). A line from a generator to the edge opposite
/// departs from its chord by at most |g″|·λ(1-λ)²/2 of its weight λ, and all three together by 2/9·|g″|.
/// </remarks>
/// <typeparam name="T">The floats that the machine computes at once.</typeparam>
internal static class PatchLanes<T>
    where T : struct, ILanes<T>
{
    private const float TwoNinths = 0.22223f;

    /// <summary>What |γ′| and |γ″| stay below; besides, neither is above g.</summary>
    public const float SlopeMost = 0.3707f, BendMost = 0.1023f;

    /// <summary>Which of sixteen paints, added to the same prefix in any composition of the cell, may be within the limits.</summary>
    /// <param name="prefixes">For each of three generators the column of what is common.</param>
    /// <param name="paints"><see cref="PaintBlocks.PaintLanes"/>.</param>
    /// <param name="drops">For each generator, drops of the paints.</param>
    /// <param name="filter">The weights of the sums.</param>
    /// <param name="limits">Their limits.</param>
    public static uint Look(ref float prefixes, ref float paints, ReadOnlySpan<float> drops, TargetFilter filter, float[] limits)
    {
        var inside = 0u;
        for (var chunk = 0; chunk < PaintBlocks.Lanes; chunk += T.Count)
        {
            var (n0, n1, n2) = (T.All(drops[0]), T.All(drops[1]), T.All(drops[2]));
            T x0 = default, x1 = default, x2 = default, xOff = default;
            T y0 = default, y1 = default, y2 = default, yOff = default;
            T z0 = default, z1 = default, z2 = default, zOff = default;
            ref var weights = ref filter.WeightsOf(0);
            ref var lanes = ref Unsafe.Add(ref paints, chunk);
            for (var row = 0; row < filter.Rows; row++)
            {
                var (paintK, paintS) = (T.Load(ref lanes, 0), T.Load(ref lanes, PaintBlocks.Lanes));
                ref var prefix = ref Unsafe.Add(ref prefixes, row);
                var (k0, s0) = (Mix(n0, paintK, ref prefix, 0), Mix(n0, paintS, ref prefix, 1));
                var (k1, s1) = (Mix(n1, paintK, ref prefix, 2), Mix(n1, paintS, ref prefix, 3));
                var (k2, s2) = (Mix(n2, paintK, ref prefix, 4), Mix(n2, paintS, ref prefix, 5));
                var isBand = row < SpectralGrid.Bands;
                var g0 = isBand ? BandLanes<T>.Light(k0, s0) : BandLanes<T>.Share(k0, s0);
                var g1 = isBand ? BandLanes<T>.Light(k1, s1) : BandLanes<T>.Share(k1, s1);
                var g2 = isBand ? BandLanes<T>.Light(k2, s2) : BandLanes<T>.Share(k2, s2);

                // Off the plane by no more than the light bends, and in any case no more than the generators differ.
                var most = T.Most(g0, T.Most(g1, g2));
                var off = most - T.Least(g0, T.Least(g1, g2));
                off = isBand ? T.Least(T.All(TwoNinths) * Bend(k0, k1, k2, s0, s1, s2, most), off) : off;
                off = T.MultiplyAdd(most, T.All(T.Precision), off);
                var w = T.All(weights);
                (x0, x1, x2, xOff) = (T.MultiplyAdd(g0, w, x0), T.MultiplyAdd(g1, w, x1), T.MultiplyAdd(g2, w, x2), T.MultiplyAdd(off, T.Size(w), xOff));
                w = T.All(Unsafe.Add(ref weights, 1));
                (y0, y1, y2, yOff) = (T.MultiplyAdd(g0, w, y0), T.MultiplyAdd(g1, w, y1), T.MultiplyAdd(g2, w, y2), T.MultiplyAdd(off, T.Size(w), yOff));
                w = T.All(Unsafe.Add(ref weights, 2));
                (z0, z1, z2, zOff) = (T.MultiplyAdd(g0, w, z0), T.MultiplyAdd(g1, w, z1), T.MultiplyAdd(g2, w, z2), T.MultiplyAdd(off, T.Size(w), zOff));
                lanes = ref Unsafe.Add(ref lanes, 2 * PaintBlocks.Lanes);
                weights = ref Unsafe.Add(ref weights, TargetFilter.Weights);
            }

            // Each sum by itself, and all three along the normal of the plane: there the box of the limits must not lie beside the patch.
            var own = Inside(x0, x1, x2, xOff, limits, 0) & Inside(y0, y1, y2, yOff, limits, 1) & Inside(z0, z1, z2, zOff, limits, 2);
            var (ux, uy, uz) = (x1 - x0, y1 - y0, z1 - z0);
            var (vx, vy, vz) = (x2 - x0, y2 - y0, z2 - z0);
            var (nx, ny, nz) = (uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
            var away = T.Size(nx * (x0 - Middle(limits, 0)) + ny * (y0 - Middle(limits, 1)) + nz * (z0 - Middle(limits, 2)));
            var reach = T.Size(nx) * (xOff + Half(limits, 0)) + T.Size(ny) * (yOff + Half(limits, 1)) + T.Size(nz) * (zOff + Half(limits, 2));

            // Rounding: the normal is off by a few units of the last place of the products it is made of, which counts where the patch is
            // nearly a line; and so are the products with it.
            var slip = Slip(uy, vz, uz, vy) * T.Most(T.Size(ux), T.Size(vx)) + Slip(uz, vx, ux, vz) * T.Most(T.Size(uy), T.Size(vy)) + Slip(ux, vy, uy, vx) * T.Most(T.Size(uz), T.Size(vz));
            var terms = T.Size(nx * x0) + T.Size(ny * y0) + T.Size(nz * z0) + reach;
            reach = T.MultiplyAdd(T.All(1e-5f), terms, reach + slip);
            inside |= (own & T.AtMost(away, reach)) << chunk;
        }

        return inside;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Mix(T drops, T paint, ref float prefix, int column) => T.MultiplyAdd(drops, paint, T.All(Unsafe.Add(ref prefix, column * PaintBlocks.ColumnRows)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Inside(T at0, T at1, T at2, T off, float[] limits, int sum) => BandLanes<T>.Inside(
        T.Least(at0, T.Least(at1, at2)) - off, T.Most(at0, T.Most(at1, at2)) + off, ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(limits), 2 * sum));

    // How far p·q - r·s may be off: half a unit of the last place (2^-24) for each factor, each product and the difference.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Slip(T p, T q, T r, T s) => T.All(2.5e-7f) * (T.Size(p * q) + T.Size(r * s));

    private static T Middle(float[] limits, int sum) => T.All((limits[2 * sum] + limits[2 * sum + 1]) / 2);

    private static T Half(float[] limits, int sum) => T.All((limits[2 * sum + 1] - limits[2 * sum]) / 2);

    // |g″| over the patch at most: |κ - σ| = |K₁S₂ - K₂S₁|/(KS), and |κ + σ| is at most what K and S grow by.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Bend(T k0, T k1, T k2, T s0, T s1, T s2, T light)
    {
        var (kLeast, kMost) = (T.Least(k0, T.Least(k1, k2)), T.Most(k0, T.Most(k1, k2)));
        var (sLeast, sMost) = (T.Least(s0, T.Least(s1, s2)), T.Most(s0, T.Most(s1, s2)));
        var one = T.Ratio(T.All(1), T.Most(kLeast * sLeast, T.All(1e-37f)));
        var difference = T.Most(T.Size(k0 * s1 - k1 * s0), T.Most(T.Size(k0 * s2 - k2 * s0), T.Size(k1 * s2 - k2 * s1))) * one;
        var sum = T.MultiplyAdd(T.MultiplyAdd(kMost, sLeast, sMost * kLeast), one, T.All(-2));
        return difference * T.MultiplyAdd(T.Least(light, T.All(BendMost)), difference, T.Least(light, T.All(SlopeMost)) * sum);
    }
}
