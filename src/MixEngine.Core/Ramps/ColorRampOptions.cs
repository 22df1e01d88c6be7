namespace MixEngine.Core;

/// <summary>What a ramp around one colour should be like.</summary>
public sealed record ColorRampOptions
{
    /// <summary>Number of steps, drops and how steps are measured, as for any ramp.</summary>
    public RampOptions Ramp { get; init; } = new() { Steps = 5 };

    /// <summary>Where the hue goes.</summary>
    public HuePath Path { get; init; }

    /// <summary>Share of the mid-tone's chroma, as far as the shelf allows it at a lightness and near the hue wanted, which the ramp is to keep, 0 to 1.</summary>
    public double ChromaShare
    {
        get;
        init => field = value is >= 0 and <= 1 ? value : throw new ArgumentOutOfRangeException(nameof(ChromaShare), value, "The share of chroma to keep is from 0 to 1.");
    } = 0.8;

    /// <summary>Most paints in the mid-tone, 1 to 3.</summary>
    public int Paints { get; init; } = 2;

    /// <summary>L* of the lightest step, where it is to be; null: more than half of the way from the mid-tone to white.</summary>
    public double? Lightest { get; init; }

    /// <summary>L* of the darkest step; null: more than half of the way to black.</summary>
    public double? Darkest { get; init; }
}
