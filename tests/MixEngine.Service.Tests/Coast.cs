using System.Text;

namespace MixEngine.Service.Tests;

/// <summary>Tables of invented paints of an invented coast.</summary>
internal static class Coast
{
    /// <summary>Seven paints and a medium.</summary>
    public const string Table = """
        name,hex,L,a,b,opacity,range,kind,finish,drops_per_ml,ml_left,pigments,notes
        tarred rope,#2b2320,,,,opaque,shore line,paint,matt,,17,PBk7 PBr7,
        kelp,#3f4a2b,,,,semi-opaque,shore line,paint,satin,22,0,PY42 PBk7,"settles; shake, then wait"
        sea lettuce,,61,-28,33,semi-transparent,shore line,paint,,,,,
        tide pool,#2f6f78,,,,transparent,tide line,paint,gloss,,,PB15:3,
        buoy yellow,#e8b21a,,,,semi-transparent,tide line,paint,,,,PY74,
        chalk cliff,#f2efe6,,,,opaque,tide line,paint,,,,PW6,
        "rust, old",#7a3b22,,,,semi-opaque,tide line,paint,,,,PR101,
        brine medium,,,,,,tide line,medium,,,,,
        """;

    /// <summary>A thousand greys that differ by little: hardly any two can be ruled out together, so that a search among them takes long.</summary>
    public static string Greys()
    {
        var table = new StringBuilder("name,hex,opacity\n");
        for (var i = 0; i < 1000; i++)
        {
            var grey = 100 + i * 37 % 60;
            table.Append(FormattableString.Invariant($"grey {i:000},#{grey + i % 3:x2}{grey + i % 5 - 2:x2}{grey + i % 7 - 3:x2},opaque\n"));
        }

        return table.ToString();
    }

    /// <summary>As many paints as a rich collection has, all different.</summary>
    public static string Large(int paints)
    {
        var table = new StringBuilder("name,hex,opacity\n");
        for (var i = 0; i < paints; i++)
        {
            table.Append(FormattableString.Invariant($"pebble {i:000},#{(40 + i * 73 % 200):x2}{(30 + i * 151 % 210):x2}{(20 + i * 197 % 220):x2},opaque\n"));
        }

        return table.ToString();
    }
}
