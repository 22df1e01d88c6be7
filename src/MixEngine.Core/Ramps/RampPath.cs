using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A path of mixtures through two or more recipes, dark to light: position 0 is the first recipe, 1 the second, and so on.</summary>
internal sealed class RampPath
{
    private readonly RampLeg[] _legs;
    private readonly View _view;

    /// <summary>Takes the recipes in the order of the path. Where its end is darker than its beginning it is turned round.</summary>
    public RampPath(IReadOnlyList<Recipe> through, View view)
    {
        if (through.Count < 2)
        {
            throw new ArgumentException("A ramp leads through two or more paints or recipes.", nameof(through));
        }

        _view = view;
        var labs = through.Select(recipe => Prediction.LabOf(recipe, view)).ToArray();
        Turned = labs[^1].L < labs[0].L;
        Nodes = Turned ? [.. through.Reverse()] : through;
        _legs = [.. Nodes.Zip(Nodes.Skip(1), (from, to) => new RampLeg(from, to))];
    }

    /// <summary>The recipes, from the dark end.</summary>
    public IReadOnlyList<Recipe> Nodes { get; }

    /// <summary>Whether the path was turned round to go from dark to light.</summary>
    public bool Turned { get; }

    public IReadOnlyList<RampLeg> Legs => _legs;

    /// <summary>Position of the end.</summary>
    public double End => _legs.Length;

    /// <summary>The mixture at a position.</summary>
    public Recipe At(double position)
    {
        var leg = Math.Clamp((int)position, 0, _legs.Length - 1);
        return _legs[leg].At(position - leg);
    }

    /// <summary>The colour at a position.</summary>
    public Lab LabAt(double position) => Prediction.LabOf(At(position), _view);

    /// <summary>Positions and colours from end to end, so close that no two neighbours are further apart than <paramref name="spacing"/> in CIELAB.</summary>
    public IReadOnlyList<(double Position, Lab Lab)> Sampled(double spacing)
    {
        // A strong tinter does most of its work in the first hundredth: halve where the colour changes fast.
        const int coarse = 16;
        const double least = 1e-7;
        var samples = new List<(double Position, Lab Lab)>();
        void Between((double Position, Lab Lab) from, (double Position, Lab Lab) to)
        {
            if (DeltaE76.Between(from.Lab, to.Lab) > spacing && to.Position - from.Position > least)
            {
                var position = (from.Position + to.Position) / 2;
                var middle = (position, LabAt(position));
                Between(from, middle);
                Between(middle, to);
            }
            else
            {
                samples.Add(to);
            }
        }

        var last = (Position: 0.0, Lab: LabAt(0));
        samples.Add(last);
        for (var i = 1; i <= coarse * _legs.Length; i++)
        {
            var position = (double)i / coarse;
            var next = (position, LabAt(position));
            Between(last, next);
            last = next;
        }

        return samples;
    }
}
