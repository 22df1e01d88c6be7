using Grpc.Core;

namespace MixEngine.Service.Refusals;

/// <summary>Gathers all that is wrong with a request, so that it can be told at once.</summary>
public sealed class Violations
{
    /// <summary>Most violations that one refusal lists.</summary>
    public const int Most = 50;

    private readonly List<Violation> _all = [];

    /// <summary>All that is wrong so far.</summary>
    public IReadOnlyList<Violation> All => _all;

    /// <summary>Whether anything is wrong so far.</summary>
    public bool Any => _all.Count > 0;

    /// <summary>Notes one more.</summary>
    public void Add(string field, string description)
    {
        if (_all.Count < Most)
        {
            _all.Add(new Violation(field, description));
        }
    }

    /// <summary>Notes all of another's.</summary>
    public void Add(Violations others)
    {
        foreach (var violation in others.All)
        {
            Add(violation.Field, violation.Description);
        }
    }

    /// <summary>Checks that a number is finite and from <paramref name="least"/> to <paramref name="most"/>.</summary>
    public double InRange(string field, double value, double least, double most, string unit = "")
    {
        if (!(value >= least && value <= most))
        {
            Add(field, FormattableString.Invariant($"{value} is not from {least} to {most}{Space(unit)}."));
        }

        return value;
    }

    /// <summary>Checks that a whole number is from <paramref name="least"/> to <paramref name="most"/>; zero stands for <paramref name="ifZero"/>.</summary>
    public int InRange(string field, int value, int least, int most, int ifZero)
    {
        if (value != 0 && (value < least || value > most))
        {
            Add(field, FormattableString.Invariant($"{value} is not from {least} to {most}; zero stands for {ifZero}."));
        }

        return value == 0 ? ifZero : value;
    }

    /// <summary>Refuses the request if anything is wrong with it.</summary>
    /// <exception cref="Refusal">Holds all of it.</exception>
    public void ThrowIfAny()
    {
        if (Any)
        {
            throw new Refusal(StatusCode.InvalidArgument, _all);
        }
    }

    private static string Space(string unit) => unit.Length == 0 ? "" : " " + unit;
}
