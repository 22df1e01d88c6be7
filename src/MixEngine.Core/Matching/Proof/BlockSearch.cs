using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace MixEngine.Core;

/// <summary>
/// Goes through all recipes of one to three paints from the coarse to the fine: blocks of paints and cells of compositions first, then a
/// paint with blocks, two paints with a block, and at last each recipe. What cannot be within the radius is not looked into further.
/// </summary>
/// <remarks>One instance serves one thread. It allocates nothing while it searches.</remarks>
internal sealed class BlockSearch
{
    // Cells are cut before the paints are told apart, until they are as narrow as a block of paints is, and where they hold few
    // compositions down to the last. Found by measuring; only speed depends on it.
    private const float Narrow = 0.3f;
    private const int Few = 12;

    // So few compositions are quicker tried than ruled out together, with sixteen paints or with one.
    private const int TriedOneByOne = 3;
    private const int TriedTogether = 32;

    private readonly SearchScope _scope;
    private readonly PaintBlocks _blocks;
    private readonly CompositionTree _compositions;
    private readonly RoleDomains _domains;
    private readonly CandidateSink _sink;
    private readonly CancellationToken _stop;
    private readonly int _last;
    private readonly uint[][] _blocksOf;
    private readonly AlignedFloats _prefix = new(CompositionTree.MostGenerators * PaintBlocks.Sides * PaintBlocks.ColumnRows);
    private readonly float[] _drops = new float[CompositionTree.MostGenerators];

    public BlockSearch(SearchScope scope, CompositionTree compositions, RoleDomains domains, CandidateSink sink, CancellationToken stop)
    {
        (_scope, _blocks, _compositions, _domains, _sink, _stop) = (scope, scope.Blocks, compositions, domains, sink, stop);
        _last = domains.Roles - 1;
        _blocksOf = [.. Enumerable.Range(0, domains.Roles).Select(role => Enumerable.Range(0, _blocks.Groups).Select(group => BlocksOf(role, group)).ToArray())];
    }

    /// <summary>Into how many pieces of work the search falls: pairs of blocks for three paints, blocks for two, one for one.</summary>
    public static int Pieces(PaintBlocks blocks, int roles) => roles switch
    {
        3 => blocks.Blocks * blocks.Blocks,
        2 => blocks.Blocks,
        _ => 1,
    };

    /// <summary>Does one piece; when stopped, as much of it as there was time for.</summary>
    public void Search(int piece)
    {
        if (_compositions.Cells.Length == 0)
        {
            return;
        }

        switch (_domains.Roles)
        {
            case 3:
                var (first, second) = Math.DivRem(piece, _blocks.Blocks);
                if (_domains.Of(0, first) != 0 && _domains.Of(1, second) != 0)
                {
                    for (var group = 0; group < _blocks.Groups; group++)
                    {
                        WithBlocks(0, first, second, group);
                    }
                }

                break;
            case 2:
                for (var bits = _domains.Of(0, piece); bits != 0; bits &= bits - 1)
                {
                    for (var group = 0; group < _blocks.Groups && !_stop.IsCancellationRequested; group++)
                    {
                        WithOnePaint(0, Slot(piece, bits), -1, group, _blocksOf[1][group]);
                    }
                }

                break;
            default:
                for (var block = 0; block < _blocks.Blocks && !_stop.IsCancellationRequested; block++)
                {
                    WithAllButLast(0, -1, -1, block, _domains.Of(0, block));
                }

                break;
        }
    }

    /// <summary>Whether a piece of a search for three paints may hold a recipe within the limits, as far as blocks and cells tell in so many looks.</summary>
    public bool MayHold(int piece, float[][] limits, ref int looks)
    {
        var (first, second) = Math.DivRem(piece, _blocks.Blocks);
        if (_domains.Of(0, first) == 0 || _domains.Of(1, second) == 0)
        {
            return false;
        }

        for (var group = 0; group < _blocks.Groups; group++)
        {
            if (MayHold(0, first, second, group, limits, ref looks))
            {
                return true;
            }
        }

        return false;
    }

    private bool MayHold(int cellIndex, int first, int second, int group, float[][] limits, ref int looks)
    {
        ref readonly var cell = ref _compositions.Cells[cellIndex];
        if (looks-- <= 0)
        {
            return true;
        }

        if (BlocksThatMay(cell, first, second, group, limits) == 0)
        {
            return false;
        }

        for (var child = 0; IsCoarse(cell) && child < cell.Children; child++)
        {
            if (MayHold(cell.FirstChild + child, first, second, group, limits, ref looks))
            {
                return true;
            }
        }

        return !IsCoarse(cell);
    }

    private uint BlocksThatMay(in CompositionCell cell, int first, int second, int group, float[][] limits)
    {
        for (var generator = 0; generator < cell.Generators; generator++)
        {
            Begin(cell, generator);
            AddBlock(cell, generator, 0, first);
            AddBlock(cell, generator, 1, second);
        }

        return Look(cell, ref _blocks.HullLanes(group), LaneShape.Blocks, limits) & _blocksOf[2][group];
    }

    // Three blocks, the third one of sixteen.
    private void WithBlocks(int cellIndex, int first, int second, int group)
    {
        ref readonly var cell = ref _compositions.Cells[cellIndex];
        var single = Single(cell);
        if (single.Equal12 && second < first)
        {
            return;
        }

        var thirds = BlocksThatMay(cell, first, second, group, _sink.Limits);
        if (thirds == 0)
        {
            return;
        }

        if (IsCoarse(cell))
        {
            for (var child = 0; child < cell.Children; child++)
            {
                WithBlocks(cell.FirstChild + child, first, second, group);
            }

            return;
        }

        for (var bits = _domains.Of(0, first); bits != 0 && !_stop.IsCancellationRequested; bits &= bits - 1)
        {
            WithOnePaint(cellIndex, Slot(first, bits), second, group, thirds);
        }
    }

    // One paint, and two blocks or one, the last of them one of sixteen.
    private void WithOnePaint(int cellIndex, int first, int second, int group, uint lasts)
    {
        ref readonly var cell = ref _compositions.Cells[cellIndex];
        var single = Single(cell);
        for (var generator = 0; generator < cell.Generators; generator++)
        {
            Begin(cell, generator);
            AddPaint(cell, generator, 0, first);
            if (second >= 0)
            {
                AddBlock(cell, generator, 1, second);
            }
        }

        lasts &= Look(cell, ref _blocks.HullLanes(group), LaneShape.Blocks, _sink.Limits);

        // Of paints with equal drops the one in the earlier slot comes first: each recipe is met once.
        var before = single.EqualLast ? (second >= 0 ? second : first / PaintBlocks.Lanes) - group * PaintBlocks.Lanes : 0;
        lasts &= before <= 0 ? uint.MaxValue : before >= 32 ? 0 : uint.MaxValue << before;
        if (lasts == 0)
        {
            return;
        }

        if (IsCoarse(cell))
        {
            for (var child = 0; child < cell.Children; child++)
            {
                WithOnePaint(cell.FirstChild + child, first, second, group, lasts);
            }

            return;
        }

        for (; lasts != 0 && !_stop.IsCancellationRequested; lasts &= lasts - 1)
        {
            var last = Slot(group, lasts);
            if (second >= 0)
            {
                WithTwoPaints(cellIndex, first, second, last, _domains.Of(1, second));
            }
            else
            {
                WithAllButLast(cellIndex, first, -1, last, _domains.Of(1, last));
            }
        }
    }

    // One paint, one of sixteen, and a block.
    private void WithTwoPaints(int cellIndex, int first, int second, int third, uint seconds)
    {
        ref readonly var cell = ref _compositions.Cells[cellIndex];
        var single = Single(cell);
        for (var generator = 0; generator < cell.Generators; generator++)
        {
            Begin(cell, generator);
            AddPaint(cell, generator, 0, first);
            AddBlock(cell, generator, 2, third);
            _drops[generator] = _compositions.Generator(cell, generator, 1);
        }

        seconds &= Look(cell, ref _blocks.PaintLanes(second), LaneShape.Paints, _sink.Limits) & Others(second, first, single.Equal12);
        if (seconds == 0)
        {
            return;
        }

        if (IsCoarse(cell))
        {
            for (var child = 0; child < cell.Children; child++)
            {
                WithTwoPaints(cell.FirstChild + child, first, second, third, seconds);
            }

            return;
        }

        for (; seconds != 0 && !_stop.IsCancellationRequested; seconds &= seconds - 1)
        {
            WithAllButLast(cellIndex, first, Slot(second, seconds), third, _domains.Of(2, third));
        }
    }

    // All paints but the last, which is one of sixteen.
    private void WithAllButLast(int cellIndex, int first, int second, int last, uint lasts)
    {
        ref readonly var cell = ref _compositions.Cells[cellIndex];
        lasts &= first >= 0 ? Others(last, first, false) : uint.MaxValue;
        lasts &= second >= 0 ? Others(last, second, false) : uint.MaxValue;
        if (lasts == 0 || _stop.IsCancellationRequested)
        {
            return;
        }

        // A few paints are quicker tried in many compositions at once, a few compositions with many paints at once.
        if (second >= 0 && cell.Count <= TriedTogether && BitOperations.PopCount(lasts) * ((cell.Count + 15) / 16) < cell.Count)
        {
            for (; lasts != 0; lasts &= lasts - 1)
            {
                CompositionsOf(cell, first, second, Slot(last, lasts));
            }

            return;
        }

        if (cell.Count <= TriedOneByOne)
        {
            for (var i = 0; i < cell.Count; i++)
            {
                Recipes(cell.First + i, first, second, last, lasts);
            }

            return;
        }

        for (var generator = 0; generator < cell.Generators; generator++)
        {
            _drops[generator] = _compositions.Generator(cell, generator, _last);
            Add(ref _prefix.At(generator * 2 * PaintBlocks.ColumnRows), _scope.OnBase ? _compositions.Generator(cell, generator, 3) : 0,
                first, _compositions.Generator(cell, generator, 0), second, _compositions.Generator(cell, generator, 1));
        }
        var limits = _sink.Limits;
        var drops = _drops.AsSpan(0, cell.Generators);
        for (var light = 0; light < limits.Length && lasts != 0; light++)
        {
            lasts &= Machine.Cell(ref _prefix.At(0), ref _blocks.PaintLanes(last), drops, _scope.Filters[light], limits[light]);
        }

        for (var child = 0; lasts != 0 && child < cell.Children; child++)
        {
            WithAllButLast(cell.FirstChild + child, first, second, last, lasts);
        }
    }

    // Three paints in all compositions of a cell, sixteen at a time.
    private void CompositionsOf(in CompositionCell cell, int first, int second, int third)
    {
        for (var from = 0; from < cell.Count; from += PaintBlocks.Lanes)
        {
            var many = from + PaintBlocks.Lanes <= cell.Count ? uint.MaxValue : (1u << (cell.Count - from)) - 1;
            var limits = _sink.Limits;
            for (var light = 0; light < limits.Length && many != 0; light++)
            {
                many &= Machine.Compositions(
                    ref _blocks.StartColumn.At(0), ref _blocks.Column(first), ref _blocks.Column(second), ref _blocks.Column(third),
                    _compositions, cell.First + from, _scope.Filters[light], limits[light]);
            }

            for (; many != 0; many &= many - 1)
            {
                var (n1, n2, n3) = _compositions.Compositions[cell.First + from + BitOperations.TrailingZeroCount(many)];
                if (!(n1 == n2 && second < first) && !(n2 == n3 && third < second))
                {
                    Offer(first, second, third, n1, n2, n3);
                }
            }
        }
    }

    // Sixteen recipes that differ in their last paint; those that pass all lights are looked at exactly.
    private void Recipes(int composition, int first, int second, int last, uint lasts)
    {
        // Of paints with equal drops the one in the earlier slot comes first: each recipe is met once.
        var (n1, n2, n3) = _compositions.Compositions[composition];
        lasts &= second >= 0
            ? (n1 == n2 && second < first ? 0 : Others(last, second, n2 == n3))
            : first >= 0 ? Others(last, first, n1 == n2) : uint.MaxValue;
        if (lasts == 0)
        {
            return;
        }

        ref var prefix = ref _prefix.At(0);
        Add(ref prefix, 1, first, n1, second, n2);
        var drops = _last switch { 0 => n1, 1 => n2, _ => n3 };
        var limits = _sink.Limits;
        for (var light = 0; light < limits.Length && lasts != 0; light++)
        {
            lasts &= Machine.Single(ref prefix, ref _blocks.PaintLanes(last), drops, _scope.Filters[light], limits[light]);
        }

        for (; lasts != 0; lasts &= lasts - 1)
        {
            Offer(first, second, Slot(last, lasts), n1, n2, n3);
        }
    }

    private void Offer(int first, int second, int last, int n1, int n2, int n3)
    {
        (int Place, int Drops) Part(int slot, int drops) => slot < 0 ? (-1, 0) : (_blocks.PlaceOf(slot), drops);
        var candidate = Candidate.Sorted(
            Part(_last == 0 ? last : first, n1),
            Part(_last == 1 ? last : second, n2),
            Part(_last == 2 ? last : -1, n3));
        if (_sink.Wants(candidate))
        {
            _sink.Offer(candidate, _scope.DifferenceOf(candidate));
        }
    }

    // What is on the palette and one or two paints: K of all rows, then S.
    private void Add(ref float prefix, float onPalette, int first, float drops1, int second, float drops2)
    {
        for (nuint row = 0; row < 2 * PaintBlocks.ColumnRows; row += (nuint)Vector<float>.Count)
        {
            var sum = Vector.Create(onPalette) * Vector.LoadUnsafe(ref _blocks.StartColumn.At(0), row);
            sum = first >= 0 ? Vector.MultiplyAddEstimate(Vector.Create(drops1), Vector.LoadUnsafe(ref _blocks.Column(first), row), sum) : sum;
            sum = second >= 0 ? Vector.MultiplyAddEstimate(Vector.Create(drops2), Vector.LoadUnsafe(ref _blocks.Column(second), row), sum) : sum;
            sum.StoreUnsafe(ref prefix, row);
        }
    }

    private uint Look(in CompositionCell cell, ref float lanes, LaneShape shape, float[][] limits)
    {
        var mask = uint.MaxValue;
        for (var light = 0; light < limits.Length && mask != 0; light++)
        {
            mask &= Machine.Group(ref _prefix.At(0), ref lanes, shape, _drops.AsSpan(0, cell.Generators), _scope.Filters[light], limits[light]);
        }

        return mask;
    }

    // What is on the palette, in the measure of the generator.
    private void Begin(in CompositionCell cell, int generator)
    {
        _drops[generator] = _compositions.Generator(cell, generator, _last);
        ref var prefix = ref Prefix(generator);
        MemoryMarshal.CreateSpan(ref prefix, PaintBlocks.Sides * PaintBlocks.ColumnRows).Clear();
        if (_scope.OnBase)
        {
            Widen(ref _blocks.StartColumn.At(0), _compositions.Generator(cell, generator, 3), ref prefix);
        }
    }

    private void AddPaint(in CompositionCell cell, int generator, int role, int slot) =>
        Widen(ref _blocks.Column(slot), _compositions.Generator(cell, generator, role), ref Prefix(generator));

    // Adds K and S of a paint to the least and to the most of both.
    private static void Widen(ref float column, float drops, ref float prefix)
    {
        for (var side = 0; side < PaintBlocks.Sides; side++)
        {
            AddTo(ref Unsafe.Add(ref prefix, side * PaintBlocks.ColumnRows), ref Unsafe.Add(ref column, side / 2 * PaintBlocks.ColumnRows), drops, PaintBlocks.ColumnRows);
        }
    }

    private void AddBlock(in CompositionCell cell, int generator, int role, int block) =>
        AddTo(ref Prefix(generator), ref _blocks.HullColumn(block), _compositions.Generator(cell, generator, role), PaintBlocks.Sides * PaintBlocks.ColumnRows);

    private static void AddTo(ref float sum, ref float column, float drops, int rows)
    {
        var n = Vector.Create(drops);
        for (var row = 0; row < rows; row += Vector<float>.Count)
        {
            Vector.MultiplyAddEstimate(n, Vector.LoadUnsafe(ref column, (nuint)row), Vector.LoadUnsafe(ref sum, (nuint)row)).StoreUnsafe(ref sum, (nuint)row);
        }
    }

    private ref float Prefix(int generator) => ref _prefix.At(generator * PaintBlocks.Sides * PaintBlocks.ColumnRows);

    // The slots of a block that are not the given one, and where order matters come after it.
    private static uint Others(int block, int slot, bool after)
    {
        var lane = slot - block * PaintBlocks.Lanes;
        return lane < 0 ? uint.MaxValue
            : lane >= PaintBlocks.Lanes ? (after ? 0 : uint.MaxValue)
            : after ? uint.MaxValue << lane << 1 : ~(1u << lane);
    }

    private uint BlocksOf(int role, int group)
    {
        var bits = 0u;
        for (var lane = 0; lane < PaintBlocks.Lanes && group * PaintBlocks.Lanes + lane < _blocks.Blocks; lane++)
        {
            bits |= _domains.Of(role, group * PaintBlocks.Lanes + lane) != 0 ? 1u << lane : 0;
        }

        return bits;
    }

    // Which drops of a single composition are equal: the first two, and the last two.
    private (bool Equal12, bool EqualLast) Single(in CompositionCell cell)
    {
        if (cell.Count != 1)
        {
            return (false, false);
        }

        var (a, b, c) = _compositions.Compositions[cell.First];
        return (a == b, _last switch { 2 => b == c, 1 => a == b, _ => false });
    }

    private static bool IsCoarse(in CompositionCell cell) => cell.Children > 0 && (cell.Spread > Narrow || cell.Count <= Few);

    private static int Slot(int block, uint bits) => block * PaintBlocks.Lanes + BitOperations.TrailingZeroCount(bits);
}
