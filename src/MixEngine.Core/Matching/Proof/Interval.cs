namespace MixEngine.Core;

/// <summary>All numbers from one to another.</summary>
internal readonly record struct Interval(double Low, double High)
{
    public double Width => High - Low;

    public double Middle => (Low + High) / 2;

    /// <summary>The smallest distance of any of its numbers from 0.</summary>
    public double Mignitude => Low > 0 ? Low : High < 0 ? -High : 0;

    /// <summary>The largest distance of any of its numbers from 0.</summary>
    public double Magnitude => Math.Max(Math.Abs(Low), Math.Abs(High));

    public bool Meets(Interval other) => Low <= other.High && High >= other.Low;

    public Interval And(Interval other) => new(Math.Min(Low, other.Low), Math.Max(High, other.High));

    public static Interval operator +(Interval x, double y) => new(x.Low + y, x.High + y);

    public static Interval operator *(Interval x, double y) => y >= 0 ? new(x.Low * y, x.High * y) : new(x.High * y, x.Low * y);
}
