using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace MixEngine.Core;

/// <summary>Floats side by side, as many as the machine computes at once.</summary>
internal interface ILanes<TSelf>
    where TSelf : struct, ILanes<TSelf>
{
    /// <summary>How many: a divisor of <see cref="PaintBlocks.Lanes"/>.</summary>
    static abstract int Count { get; }

    /// <summary>Bound on the relative error of <see cref="Ratio"/> and <see cref="PlusRoot"/>.</summary>
    static abstract float Precision { get; }

    static abstract TSelf Load(ref float from, nuint offset);

    static abstract TSelf All(float value);

    /// <summary>x·y + z, rounded once or twice.</summary>
    static abstract TSelf MultiplyAdd(TSelf x, TSelf y, TSelf z);

    static abstract TSelf Least(TSelf x, TSelf y);

    static abstract TSelf Most(TSelf x, TSelf y);

    static abstract TSelf Size(TSelf x);

    /// <summary>x / y.</summary>
    static abstract TSelf Ratio(TSelf x, TSelf y);

    /// <summary>x + √y, y above 0.</summary>
    static abstract TSelf PlusRoot(TSelf x, TSelf y);

    /// <summary>One bit for each lane where x is at most y.</summary>
    static abstract uint AtMost(TSelf x, TSelf y);

    static abstract TSelf operator +(TSelf x, TSelf y);

    static abstract TSelf operator -(TSelf x, TSelf y);

    static abstract TSelf operator *(TSelf x, TSelf y);
}

/// <summary>Sixteen floats, with the estimates of reciprocal and root that such machines have: relative error below 2^-14 [IntelSDM].</summary>
internal readonly struct Lanes16(Vector512<float> value) : ILanes<Lanes16>
{
    private readonly Vector512<float> _value = value;

    public static int Count => 16;

    // Two estimates to a band, a third to K/S of a cell; and roundings.
    public static float Precision => 2.5e-4f;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Load(ref float from, nuint offset) => new(Vector512.LoadUnsafe(ref from, offset));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 All(float value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 MultiplyAdd(Lanes16 x, Lanes16 y, Lanes16 z) => new(Vector512.MultiplyAddEstimate(x._value, y._value, z._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Least(Lanes16 x, Lanes16 y) => new(Vector512.MinNative(x._value, y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Most(Lanes16 x, Lanes16 y) => new(Vector512.MaxNative(x._value, y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Size(Lanes16 x) => new(Vector512.Abs(x._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 Ratio(Lanes16 x, Lanes16 y) => new(x._value * Avx512F.Reciprocal14(y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 PlusRoot(Lanes16 x, Lanes16 y) => new(Vector512.MultiplyAddEstimate(y._value, Avx512F.ReciprocalSqrt14(y._value), x._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint AtMost(Lanes16 x, Lanes16 y) => (uint)Vector512.LessThanOrEqual(x._value, y._value).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 operator +(Lanes16 x, Lanes16 y) => new(x._value + y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 operator -(Lanes16 x, Lanes16 y) => new(x._value - y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes16 operator *(Lanes16 x, Lanes16 y) => new(x._value * y._value);
}

/// <summary>Eight floats, divided and rooted in full.</summary>
internal readonly struct Lanes8(Vector256<float> value) : ILanes<Lanes8>
{
    private readonly Vector256<float> _value = value;

    public static int Count => 8;

    public static float Precision => 4e-6f;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Load(ref float from, nuint offset) => new(Vector256.LoadUnsafe(ref from, offset));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 All(float value) => new(Vector256.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 MultiplyAdd(Lanes8 x, Lanes8 y, Lanes8 z) => new(Vector256.MultiplyAddEstimate(x._value, y._value, z._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Least(Lanes8 x, Lanes8 y) => new(Vector256.MinNative(x._value, y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Most(Lanes8 x, Lanes8 y) => new(Vector256.MaxNative(x._value, y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Size(Lanes8 x) => new(Vector256.Abs(x._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 Ratio(Lanes8 x, Lanes8 y) => new(x._value / y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 PlusRoot(Lanes8 x, Lanes8 y) => new(x._value + Vector256.Sqrt(y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint AtMost(Lanes8 x, Lanes8 y) => Vector256.LessThanOrEqual(x._value, y._value).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator +(Lanes8 x, Lanes8 y) => new(x._value + y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator -(Lanes8 x, Lanes8 y) => new(x._value - y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes8 operator *(Lanes8 x, Lanes8 y) => new(x._value * y._value);
}

/// <summary>Four floats, divided and rooted in full.</summary>
internal readonly struct Lanes4(Vector128<float> value) : ILanes<Lanes4>
{
    private readonly Vector128<float> _value = value;

    public static int Count => 4;

    public static float Precision => 4e-6f;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Load(ref float from, nuint offset) => new(Vector128.LoadUnsafe(ref from, offset));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 All(float value) => new(Vector128.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 MultiplyAdd(Lanes4 x, Lanes4 y, Lanes4 z) => new(Vector128.MultiplyAddEstimate(x._value, y._value, z._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Least(Lanes4 x, Lanes4 y) => new(Vector128.MinNative(x._value, y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Most(Lanes4 x, Lanes4 y) => new(Vector128.MaxNative(x._value, y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Size(Lanes4 x) => new(Vector128.Abs(x._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 Ratio(Lanes4 x, Lanes4 y) => new(x._value / y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 PlusRoot(Lanes4 x, Lanes4 y) => new(x._value + Vector128.Sqrt(y._value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint AtMost(Lanes4 x, Lanes4 y) => Vector128.LessThanOrEqual(x._value, y._value).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator +(Lanes4 x, Lanes4 y) => new(x._value + y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator -(Lanes4 x, Lanes4 y) => new(x._value - y._value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lanes4 operator *(Lanes4 x, Lanes4 y) => new(x._value * y._value);
}
