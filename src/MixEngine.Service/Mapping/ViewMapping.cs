using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>How colours are to be looked at.</summary>
internal static class ViewMapping
{
    /// <summary>The view asked for; where something is wrong with it, a violation is noted and the default taken.</summary>
    public static View Read(V1.View? view, Violations violations) => view is null
        ? View.Default
        : new View(
            ReadCondition(view.Illuminant, view.ObserverDegrees, ViewingCondition.Default, "view", violations),
            ReadFinish(view.Finish, "view.finish", violations));

    /// <summary>Light and eye; what is empty or zero is taken from <paramref name="otherwise"/>.</summary>
    public static ViewingCondition ReadCondition(string illuminant, int observerDegrees, ViewingCondition otherwise, string field, Violations violations)
    {
        var light = otherwise.Illuminant;
        if (illuminant.Length > 0 && !Illuminant.TryFromName(illuminant, out light))
        {
            violations.Add($"{field}.illuminant", $"'{Shown.Of(illuminant)}' is no light that is known; use {string.Join(", ", Illuminant.All.Select(known => known.Name))}.");
        }

        if (observerDegrees is not (0 or 2 or 10))
        {
            violations.Add($"{field}.observer_degrees", $"{observerDegrees} is neither 2 nor 10; zero stands for {Degrees(otherwise.Observer)}.");
        }

        return new ViewingCondition(light ?? otherwise.Illuminant, observerDegrees switch
        {
            2 => Observer.Degree2,
            10 => Observer.Degree10,
            _ => otherwise.Observer,
        });
    }

    /// <summary>2 or 10.</summary>
    public static int Degrees(Observer observer) => observer == Observer.Degree10 ? 10 : 2;

    /// <summary>A finish; null where none is named, with a violation noted where there is none of that name.</summary>
    public static Finish? ReadFinish(string finish, string field, Violations violations)
    {
        var read = Words.Finish.Read(finish);
        if (finish.Length > 0 && read is null)
        {
            violations.Add(field, $"'{Shown.Of(finish)}' is no finish; use {Words.Finish.All}.");
        }

        return read;
    }
}
