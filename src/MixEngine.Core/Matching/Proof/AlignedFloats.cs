using System.Runtime.InteropServices;

namespace MixEngine.Core;

/// <summary>Floats that begin on a 64-byte line and stay there, so that a vector never straddles two lines.</summary>
internal sealed class AlignedFloats
{
    private const int Line = 64 / sizeof(float);

    private readonly float[] _values;
    private readonly int _start;

    public AlignedFloats(int count)
    {
        _values = GC.AllocateArray<float>(count + Line, pinned: true);
        var past = (int)(Marshal.UnsafeAddrOfPinnedArrayElement(_values, 0) % (Line * sizeof(float))) / sizeof(float);
        _start = (Line - past) % Line;
        Count = count;
    }

    public int Count { get; }

    /// <summary>All values, 0 at first.</summary>
    public Span<float> Span => _values.AsSpan(_start, Count);

    /// <summary>The first of some values, for vector code that counts from there.</summary>
    public ref float At(int index) => ref _values[_start + index];
}
