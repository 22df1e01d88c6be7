using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace MixEngine.Core;

/// <summary>The widest lanes of this machine. All give the same answers, since what passes them is looked at exactly.</summary>
internal static class Machine
{
    /// <summary>Bound on the relative error of a band as the lanes compute it.</summary>
    public static double Precision => Lanes == Lanes16.Count ? Lanes16.Precision : Lanes == Lanes8.Count ? Lanes8.Precision : Lanes4.Precision;

    /// <summary>Floats that it computes at once.</summary>
    public static int Lanes => Avx512F.IsSupported ? Lanes16.Count : Vector256.IsHardwareAccelerated ? Lanes8.Count : Lanes4.Count;

    /// <inheritdoc cref="BandLanes{T}.Single"/>
    public static uint Single(ref float prefix, ref float paints, float drops, TargetFilter filter, float[] limits) => Lanes switch
    {
        16 => BandLanes<Lanes16>.Single(ref prefix, ref paints, drops, filter, limits),
        8 => BandLanes<Lanes8>.Single(ref prefix, ref paints, drops, filter, limits),
        _ => BandLanes<Lanes4>.Single(ref prefix, ref paints, drops, filter, limits),
    };

    /// <inheritdoc cref="BandLanes{T}.Compositions"/>
    public static uint Compositions(
        ref float start, ref float first, ref float second, ref float third, CompositionTree compositions, int from, TargetFilter filter, float[] limits) => Lanes switch
    {
        16 => BandLanes<Lanes16>.Compositions(ref start, ref first, ref second, ref third, compositions, from, filter, limits),
        8 => BandLanes<Lanes8>.Compositions(ref start, ref first, ref second, ref third, compositions, from, filter, limits),
        _ => BandLanes<Lanes4>.Compositions(ref start, ref first, ref second, ref third, compositions, from, filter, limits),
    };

    /// <summary>Groups, in one composition or in all of a cell.</summary>
    public static uint Group(ref float prefixes, ref float groups, LaneShape shape, ReadOnlySpan<float> drops, TargetFilter filter, float[] limits) => (Lanes, drops.Length) switch
    {
        (16, 1) => BandLanes<Lanes16>.Group(ref prefixes, ref groups, shape, drops[0], filter, limits),
        (16, _) => BandLanes<Lanes16>.GroupCell(ref prefixes, ref groups, shape, drops, filter, limits),
        (8, 1) => BandLanes<Lanes8>.Group(ref prefixes, ref groups, shape, drops[0], filter, limits),
        (8, _) => BandLanes<Lanes8>.GroupCell(ref prefixes, ref groups, shape, drops, filter, limits),
        (_, 1) => BandLanes<Lanes4>.Group(ref prefixes, ref groups, shape, drops[0], filter, limits),
        _ => BandLanes<Lanes4>.GroupCell(ref prefixes, ref groups, shape, drops, filter, limits),
    };

    /// <summary>A cell of compositions with sixteen paints: as a patch where it has three generators, else band by band.</summary>
    public static uint Cell(ref float prefixes, ref float paints, ReadOnlySpan<float> drops, TargetFilter filter, float[] limits) => (Lanes, drops.Length) switch
    {
        (16, 3) => PatchLanes<Lanes16>.Look(ref prefixes, ref paints, drops, filter, limits),
        (16, _) => BandLanes<Lanes16>.Cell(ref prefixes, ref paints, drops, filter, limits),
        (8, 3) => PatchLanes<Lanes8>.Look(ref prefixes, ref paints, drops, filter, limits),
        (8, _) => BandLanes<Lanes8>.Cell(ref prefixes, ref paints, drops, filter, limits),
        (_, 3) => PatchLanes<Lanes4>.Look(ref prefixes, ref paints, drops, filter, limits),
        _ => BandLanes<Lanes4>.Cell(ref prefixes, ref paints, drops, filter, limits),
    };
}
