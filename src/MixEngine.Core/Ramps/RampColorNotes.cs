using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Finds where the hue of a ramp turns and where its chroma collapses. All borders are common practice, no source.</summary>
internal static class RampColorNotes
{
    /// <summary>Below this chroma a hue is too weak to turn.</summary>
    private const double Hued = 8;

    /// <summary>Below this chroma there is nothing to lose.</summary>
    private const double Vivid = 15;

    /// <summary>A hue turns by more than this, degrees, and by more than <see cref="TurnSize"/> of hue difference.</summary>
    private const double TurnDegrees = 30, TurnSize = 6;

    /// <summary>Chroma collapses below this share of what it was.</summary>
    private const double Collapse = 0.6;

    /// <summary>Chalk is light.</summary>
    private const double ChalkLightness = 50;

    /// <summary>Hues that turn green where they are darkened, by how many degrees they must, and up to where it is green. Degrees.</summary>
    private const double YellowFrom = 60, GreenFrom = 98, GreeningBy = 10, GreenTo = 175;

    /// <summary>The notes.</summary>
    /// <param name="labs">The steps, dark to light.</param>
    /// <param name="number">The number of a step as the ramp was given.</param>
    public static IEnumerable<RampColorNote> Of(IReadOnlyList<Lab> labs, Func<int, int> number)
    {
        for (var i = 1; i < labs.Count; i++)
        {
            var (from, to) = (labs[i - 1], labs[i]);
            if (Turn(from, to) is { } degrees)
            {
                yield return new RampColorNote(RampColorNoteKind.HueTurn, number(i), Text($"The hue turns by {degrees:0} degrees from step {number(i - 1)} to {number(i)}: from {ColorWords.Describe(from)} to {ColorWords.Describe(to)}."));
            }
        }

        if (Chalky(labs) is { } chalky)
        {
            yield return new RampColorNote(RampColorNoteKind.Chalk, number(chalky), Text($"Chalk: from step {number(chalky)} on less than {100 * Collapse:0} % of the chroma is left ({labs[chalky].Chroma:0} of {labs.Take(chalky).Max(lab => lab.Chroma):0}). A yellow or a bone lightens without it."));
        }

        if (Muddiest(labs) is { } muddy)
        {
            yield return new RampColorNote(RampColorNoteKind.Mud, number(muddy), Text($"Mud: step {number(muddy)} has a chroma of {labs[muddy].Chroma:0}, duller than what lies before and after it. Its paints take each other's colour away."));
        }

        if (Greening(labs) is { } green)
        {
            yield return new RampColorNote(RampColorNoteKind.Greening, number(green), Text($"Greening: step {number(green)} is {ColorWords.Describe(labs[green])}, though neither end is green. Black and blue turn a yellow green; a brown darkens it without."));
        }
    }

    // The first step that is greener than a yellow above it, between ends that are not green.
    private static int? Greening(IReadOnlyList<Lab> labs)
    {
        if (IsGreen(labs[0]) || IsGreen(labs[^1]))
        {
            return null;
        }

        for (var i = 1; i < labs.Count - 1; i++)
        {
            if (IsGreen(labs[i]) && labs.Skip(i + 1).Any(light => IsYellow(light) && labs[i].HueDegrees > light.HueDegrees + GreeningBy))
            {
                return i;
            }
        }

        return null;
    }

    private static double? Turn(Lab from, Lab to)
    {
        if (from.Chroma < Hued || to.Chroma < Hued || from.HueDegrees is not { } one || to.HueDegrees is not { } other)
        {
            return null;
        }

        var degrees = Math.Abs(one - other);
        degrees = Math.Min(degrees, 360 - degrees);
        return degrees > TurnDegrees && 2 * Math.Sqrt(from.Chroma * to.Chroma) * Math.Sin(degrees / 2 * Math.PI / 180) > TurnSize ? degrees : null;
    }

    // The first light step from which on the chroma stays collapsed.
    private static int? Chalky(IReadOnlyList<Lab> labs)
    {
        var most = labs.Max(lab => lab.Chroma);
        var peak = Enumerable.Range(0, labs.Count).First(i => labs[i].Chroma == most);
        var last = Enumerable.Range(0, labs.Count).Last(i => labs[i].Chroma >= Collapse * most || labs[i].L < ChalkLightness);
        return most >= Vivid && last >= peak && last < labs.Count - 1 ? last + 1 : null;
    }

    private static int? Muddiest(IReadOnlyList<Lab> labs)
    {
        int? found = null;
        for (var i = 1; i < labs.Count - 1; i++)
        {
            var both = Math.Min(labs.Take(i).Max(lab => lab.Chroma), labs.Skip(i + 1).Max(lab => lab.Chroma));
            if (both >= Vivid && labs[i].Chroma < Collapse * both && !(found is { } duller && labs[duller].Chroma <= labs[i].Chroma))
            {
                found = i;
            }
        }

        return found;
    }

    private static bool IsGreen(Lab lab) => lab.Chroma >= Hued && lab.HueDegrees is >= GreenFrom and < GreenTo;

    private static bool IsYellow(Lab lab) => lab.Chroma >= Hued && lab.HueDegrees is >= YellowFrom and < GreenFrom;

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
