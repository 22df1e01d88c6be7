using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>A lamp as it is named on the line: a known light, or the file of a measured one.</summary>
internal static class LampFile
{
    /// <summary>A name goes to the service as it is; what is a file, or is written like one, is read.</summary>
    public static Lamp Read(string lamp)
    {
        if (!File.Exists(lamp) && lamp.IndexOfAny(['.', '/', '\\']) < 0)
        {
            return new Lamp { Name = lamp };
        }
        if (!File.Exists(lamp))
        {
            throw new Refusal($"There is no file {lamp}. Name a light such as D50, or the CSV file of a measured one.");
        }

        (double[] wavelengths, double[] powers) = CurveFile.Read(lamp, "power");
        return new Lamp { Name = Path.GetFileNameWithoutExtension(lamp), WavelengthNm = { wavelengths }, RelativePower = { powers } };
    }
}
