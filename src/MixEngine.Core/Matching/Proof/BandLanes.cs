using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Sixteen mixtures, or groups of mixtures, side by side through all bands: K and S of what is common to them plus so many drops of what
/// differs, the light that leaves, and its three weighted sums. Nothing is allocated.
/// </summary>
/// <remarks>Prefixes are columns: K of all rows, then S; for groups least K, most K, least S, most S. Answers have one bit for each of the sixteen.</remarks>
/// <typeparam name="T">The floats that the machine computes at once.</typeparam>
internal static class BandLanes<T>
    where T : struct, ILanes<T>
{
    /// <summary>Which of sixteen paints, so many drops of each added to the same prefix, may be within the limits.</summary>
    /// <param name="prefix">The column of what is common.</param>
    /// <param name="paints"><see cref="PaintBlocks.PaintLanes"/>.</param>
    /// <param name="drops">Drops of each.</param>
    /// <param name="filter">The weights of the sums.</param>
    /// <param name="limits">Their limits.</param>
    public static uint Single(ref float prefix, ref float paints, float drops, TargetFilter filter, float[] limits)
    {
        var inside = 0u;
        for (var chunk = 0; chunk < PaintBlocks.Lanes; chunk += T.Count)
        {
            var n = T.All(drops);
            T x = default, y = default, z = default;
            ref var weights = ref filter.WeightsOf(0);
            ref var lanes = ref Unsafe.Add(ref paints, chunk);
            for (var row = 0; row < filter.Rows; row++)
            {
                var k = T.MultiplyAdd(n, T.Load(ref lanes, 0), T.All(Unsafe.Add(ref prefix, row)));
                var s = T.MultiplyAdd(n, T.Load(ref lanes, PaintBlocks.Lanes), T.All(Unsafe.Add(ref prefix, PaintBlocks.ColumnRows + row)));
                var light = row < SpectralGrid.Bands ? Light(k, s) : Share(k, s);
                x = T.MultiplyAdd(light, T.All(weights), x);
                y = T.MultiplyAdd(light, T.All(Unsafe.Add(ref weights, 1)), y);
                z = T.MultiplyAdd(light, T.All(Unsafe.Add(ref weights, 2)), z);
                lanes = ref Unsafe.Add(ref lanes, 2 * PaintBlocks.Lanes);
                weights = ref Unsafe.Add(ref weights, TargetFilter.Weights);
            }

            inside |= Inside(x, y, z, limits) << chunk;
        }

        return inside;
    }

    /// <summary>Which of sixteen compositions of the same paints may be within the limits.</summary>
    /// <param name="start">The column of what is on the palette.</param>
    /// <param name="first">That of the first paint; likewise the others.</param>
    /// <param name="second">The second paint.</param>
    /// <param name="third">The third paint.</param>
    /// <param name="compositions">The drops.</param>
    /// <param name="from">The first of the sixteen.</param>
    /// <param name="filter">The weights of the sums.</param>
    /// <param name="limits">Their limits.</param>
    public static uint Compositions(
        ref float start, ref float first, ref float second, ref float third, CompositionTree compositions, int from, TargetFilter filter, float[] limits)
    {
        var inside = 0u;
        for (var chunk = 0; chunk < PaintBlocks.Lanes; chunk += T.Count)
        {
            ref var drops = ref compositions.Drops(from + chunk);
            var n1 = T.Load(ref drops, 0);
            var n2 = T.Load(ref drops, (nuint)compositions.Stride);
            var n3 = T.Load(ref drops, (nuint)(2 * compositions.Stride));
            T x = default, y = default, z = default;
            ref var weights = ref filter.WeightsOf(0);
            for (var row = 0; row < filter.Rows; row++)
            {
                var k = T.MultiplyAdd(n1, T.All(Unsafe.Add(ref first, row)), T.All(Unsafe.Add(ref start, row)));
                k = T.MultiplyAdd(n2, T.All(Unsafe.Add(ref second, row)), k);
                k = T.MultiplyAdd(n3, T.All(Unsafe.Add(ref third, row)), k);
                var s = T.MultiplyAdd(n1, T.All(Unsafe.Add(ref first, PaintBlocks.ColumnRows + row)), T.All(Unsafe.Add(ref start, PaintBlocks.ColumnRows + row)));
                s = T.MultiplyAdd(n2, T.All(Unsafe.Add(ref second, PaintBlocks.ColumnRows + row)), s);
                s = T.MultiplyAdd(n3, T.All(Unsafe.Add(ref third, PaintBlocks.ColumnRows + row)), s);
                var light = row < SpectralGrid.Bands ? Light(k, s) : Share(k, s);
                x = T.MultiplyAdd(light, T.All(weights), x);
                y = T.MultiplyAdd(light, T.All(Unsafe.Add(ref weights, 1)), y);
                z = T.MultiplyAdd(light, T.All(Unsafe.Add(ref weights, 2)), z);
                weights = ref Unsafe.Add(ref weights, TargetFilter.Weights);
            }

            inside |= Inside(x, y, z, limits) << chunk;
        }

        return inside;
    }

    /// <summary>Which of sixteen groups of mixtures may hold one within the limits.</summary>
    /// <param name="prefixes">The columns of what is common.</param>
    /// <param name="groups">Paints or blocks, row after row.</param>
    /// <param name="shape">How they lie.</param>
    /// <param name="drops">Drops of what differs.</param>
    /// <param name="filter">The weights of the sums.</param>
    /// <param name="limits">Their limits.</param>
    public static uint Group(ref float prefixes, ref float groups, LaneShape shape, float drops, TargetFilter filter, float[] limits)
    {
        var inside = 0u;
        for (var chunk = 0; chunk < PaintBlocks.Lanes; chunk += T.Count)
        {
            T x0 = default, x1 = default, y0 = default, y1 = default, z0 = default, z1 = default;
            ref var weights = ref filter.WeightsOf(0);
            ref var lanes = ref Unsafe.Add(ref groups, chunk);
            for (var row = 0; row < filter.Rows; row++)
            {
                ref var prefix = ref Unsafe.Add(ref prefixes, row);
                var isBand = row < SpectralGrid.Bands;
                var n = T.All(drops);
                var (mostK, leastS) = (Side(n, ref lanes, shape.MostK, ref prefix, 1), Side(n, ref lanes, shape.LeastS, ref prefix, 2));
                var least = isBand ? Light(mostK, leastS) : Share(mostK, leastS);
                var (leastK, mostS) = (Side(n, ref lanes, 0, ref prefix, 0), Side(n, ref lanes, shape.MostS, ref prefix, 3));
                var most = isBand ? Light(leastK, mostS) : Share(leastK, mostS);
                x0 = Sum(x0, least, most, ref weights, 0);
                x1 = Sum(x1, most, least, ref weights, 0);
                y0 = Sum(y0, least, most, ref weights, 1);
                y1 = Sum(y1, most, least, ref weights, 1);
                z0 = Sum(z0, least, most, ref weights, 2);
                z1 = Sum(z1, most, least, ref weights, 2);
                lanes = ref Unsafe.Add(ref lanes, shape.Row);
                weights = ref Unsafe.Add(ref weights, TargetFilter.Weights);
            }

            ref var limit = ref MemoryMarshal.GetArrayDataReference(limits);
            inside |= (Inside(x0, x1, ref limit) & Inside(y0, y1, ref Unsafe.Add(ref limit, 2)) & Inside(z0, z1, ref Unsafe.Add(ref limit, 4))) << chunk;
        }

        return inside;
    }

    /// <summary>The same for all compositions of a cell.</summary>
    /// <param name="prefixes">For each generator of the cell the columns of what is common.</param>
    /// <param name="groups">Paints or blocks, row after row.</param>
    /// <param name="shape">How they lie.</param>
    /// <param name="drops">For each generator, drops of what differs.</param>
    /// <param name="filter">The weights of the sums.</param>
    /// <param name="limits">Their limits.</param>
    public static uint GroupCell(ref float prefixes, ref float groups, LaneShape shape, ReadOnlySpan<float> drops, TargetFilter filter, float[] limits)
    {
        var inside = 0u;
        for (var chunk = 0; chunk < PaintBlocks.Lanes; chunk += T.Count)
        {
            T x0 = default, x1 = default, y0 = default, y1 = default, z0 = default, z1 = default;
            ref var weights = ref filter.WeightsOf(0);
            ref var lanes = ref Unsafe.Add(ref groups, chunk);
            for (var row = 0; row < filter.Rows; row++)
            {
                ref var prefix = ref Unsafe.Add(ref prefixes, row);
                var isBand = row < SpectralGrid.Bands;

                // K/S of any composition lies between those of the generators.
                var (lowest, highest) = (T.All(float.MaxValue), T.All(0));
                for (var generator = 0; generator < drops.Length; generator++)
                {
                    var n = T.All(drops[generator]);
                    lowest = T.Least(lowest, KToS(Side(n, ref lanes, 0, ref prefix, 0), Side(n, ref lanes, shape.MostS, ref prefix, 3)));
                    highest = T.Most(highest, KToS(Side(n, ref lanes, shape.MostK, ref prefix, 1), Side(n, ref lanes, shape.LeastS, ref prefix, 2)));
                    prefix = ref Unsafe.Add(ref prefix, PaintBlocks.Sides * PaintBlocks.ColumnRows);
                }

                var (least, most) = (isBand ? LightOf(highest) : ShareOf(highest), isBand ? LightOf(lowest) : ShareOf(lowest));
                x0 = Sum(x0, least, most, ref weights, 0);
                x1 = Sum(x1, most, least, ref weights, 0);
                y0 = Sum(y0, least, most, ref weights, 1);
                y1 = Sum(y1, most, least, ref weights, 1);
                z0 = Sum(z0, least, most, ref weights, 2);
                z1 = Sum(z1, most, least, ref weights, 2);
                lanes = ref Unsafe.Add(ref lanes, shape.Row);
                weights = ref Unsafe.Add(ref weights, TargetFilter.Weights);
            }

            ref var limit = ref MemoryMarshal.GetArrayDataReference(limits);
            inside |= (Inside(x0, x1, ref limit) & Inside(y0, y1, ref Unsafe.Add(ref limit, 2)) & Inside(z0, z1, ref Unsafe.Add(ref limit, 4))) << chunk;
        }

        return inside;
    }

    /// <summary>Which of sixteen paints, added to the same prefix in any composition of a cell, may be within the limits.</summary>
    /// <param name="prefixes">For each generator the column of what is common.</param>
    /// <param name="paints"><see cref="PaintBlocks.PaintLanes"/>.</param>
    /// <param name="drops">For each generator, drops of the paints.</param>
    /// <param name="filter">The weights of the sums.</param>
    /// <param name="limits">Their limits.</param>
    public static uint Cell(ref float prefixes, ref float paints, ReadOnlySpan<float> drops, TargetFilter filter, float[] limits)
    {
        var inside = 0u;
        for (var chunk = 0; chunk < PaintBlocks.Lanes; chunk += T.Count)
        {
            T x0 = default, x1 = default, y0 = default, y1 = default, z0 = default, z1 = default;
            ref var weights = ref filter.WeightsOf(0);
            ref var lanes = ref Unsafe.Add(ref paints, chunk);
            for (var row = 0; row < filter.Rows; row++)
            {
                var (lowest, highest) = (T.All(float.MaxValue), T.All(0));
                var (paintK, paintS) = (T.Load(ref lanes, 0), T.Load(ref lanes, PaintBlocks.Lanes));
                ref var prefix = ref Unsafe.Add(ref prefixes, row);
                for (var generator = 0; generator < drops.Length; generator++)
                {
                    var n = T.All(drops[generator]);
                    var ratio = KToS(T.MultiplyAdd(n, paintK, T.All(prefix)), T.MultiplyAdd(n, paintS, T.All(Unsafe.Add(ref prefix, PaintBlocks.ColumnRows))));
                    lowest = T.Least(lowest, ratio);
                    highest = T.Most(highest, ratio);
                    prefix = ref Unsafe.Add(ref prefix, 2 * PaintBlocks.ColumnRows);
                }

                var isBand = row < SpectralGrid.Bands;
                var (least, most) = (isBand ? LightOf(highest) : ShareOf(highest), isBand ? LightOf(lowest) : ShareOf(lowest));
                x0 = Sum(x0, least, most, ref weights, 0);
                x1 = Sum(x1, most, least, ref weights, 0);
                y0 = Sum(y0, least, most, ref weights, 1);
                y1 = Sum(y1, most, least, ref weights, 1);
                z0 = Sum(z0, least, most, ref weights, 2);
                z1 = Sum(z1, most, least, ref weights, 2);
                lanes = ref Unsafe.Add(ref lanes, 2 * PaintBlocks.Lanes);
                weights = ref Unsafe.Add(ref weights, TargetFilter.Weights);
            }

            ref var limit = ref MemoryMarshal.GetArrayDataReference(limits);
            inside |= (Inside(x0, x1, ref limit) & Inside(y0, y1, ref Unsafe.Add(ref limit, 2)) & Inside(z0, z1, ref Unsafe.Add(ref limit, 4))) << chunk;
        }

        return inside;
    }

    // The least or the most K or S that a lane may hold.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Side(T drops, ref float lanes, nuint at, ref float prefix, int side) =>
        T.MultiplyAdd(drops, T.Load(ref lanes, at), T.All(Unsafe.Add(ref prefix, side * PaintBlocks.ColumnRows)));

    // A positive weight asks for the one side to bound a sum, a negative one for the other.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Sum(T sum, T plus, T minus, ref float weights, int i) =>
        T.MultiplyAdd(plus, T.All(Unsafe.Add(ref weights, 3 + i)), T.MultiplyAdd(minus, T.All(Unsafe.Add(ref weights, 6 + i)), sum));

    // S / (K + 0.4·S + √(K(K + 2S))): the opaque film [KubelkaMunk1931] seen through its surface [Saunderson1942],
    // R'/((1-k1)(1-k2)) = R/(1 - k2·R) with k2 = 0.6, multiplied through so that S = 0 needs no limit.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static T Light(T k, T s) => T.Ratio(s, T.PlusRoot(
        T.MultiplyAdd(s, T.All((float)(1 - SurfaceReflection.Internal)), k),
        T.Most(T.All(1e-38f), k * (k + (s + s)))));

    // The same with q = K/S.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T LightOf(T q) => T.Ratio(T.All(1), T.PlusRoot(
        q + T.All((float)(1 - SurfaceReflection.Internal)),
        T.Most(T.All(1e-38f), T.MultiplyAdd(q, q, q + q))));

    // K/S, at most 1e12: beyond it is black in any case, and its square is still a number.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T KToS(T k, T s) => T.Least(T.Ratio(k, T.Most(s, T.All(1e-37f))), T.All(1e12f));

    // The surface row: the collected share S / (K + S).
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static T Share(T k, T s) => T.Ratio(s, T.Most(k + s, T.All(1e-37f)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T ShareOf(T q) => T.Ratio(T.All(1), T.All(1) + q);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static uint Inside(T least, T most, ref float limit) => T.AtMost(least, T.All(Unsafe.Add(ref limit, 1))) & T.AtMost(T.All(limit), most);

    // The three sums, and where these pass, what is mixed of them.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Inside(T x, T y, T z, float[] limits)
    {
        ref var limit = ref MemoryMarshal.GetArrayDataReference(limits);
        var inside = Inside(x, x, ref limit) & Inside(y, y, ref Unsafe.Add(ref limit, 2)) & Inside(z, z, ref Unsafe.Add(ref limit, 4));
        return inside == 0 ? 0 : InsideMixed(inside, x, y, z, limits);
    }

    private static uint InsideMixed(uint inside, T x, T y, T z, float[] limits)
    {
        for (var i = 0; i < TargetFilter.Mixed && inside != 0; i++)
        {
            var factors = TargetFilter.MixedOf(i);
            var sum = T.All(factors[0]) * x + T.All(factors[1]) * y + T.All(factors[2]) * z;
            inside &= Inside(sum, sum, ref limits[6 + 2 * i]);
        }

        return inside;
    }
}

/// <summary>Where the four sides of a row of lanes lie: floats from its first.</summary>
internal readonly record struct LaneShape(int Row, nuint MostK, nuint LeastS, nuint MostS)
{
    /// <summary>Paints: K and S, each its own least and most.</summary>
    public static LaneShape Paints => new(2 * PaintBlocks.Lanes, 0, PaintBlocks.Lanes, PaintBlocks.Lanes);

    /// <summary>Blocks: all four.</summary>
    public static LaneShape Blocks => new(4 * PaintBlocks.Lanes, PaintBlocks.Lanes, 2 * PaintBlocks.Lanes, 3 * PaintBlocks.Lanes);
}
