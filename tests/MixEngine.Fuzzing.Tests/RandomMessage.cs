using System.Collections;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace MixEngine.Fuzzing.Tests;

/// <summary>Messages of any type with plausible and hostile contents.</summary>
internal static class RandomMessage
{
    private static readonly string[] Paints = ["tarred rope", "kelp", "sea lettuce", "tide pool", "buoy yellow", "chalk cliff", "rust, old", "brine medium", "water", "KELP ", "kelb", "9"];
    private static readonly string[] Recipes = ["kelp", "1 kelp + 2 chalk cliff", "2 tarred rope + 1 kelp + 3 chalk cliff", "1:2 kelp, chalk cliff", "0 kelp", "-1 kelp", "1 kelp +", "50 % kelp + 50 % water", "1e300 kelp"];
    private static readonly string[] Colors = ["#5d4d3c", "5d4d3c", "#fff", "lab:55,12,20", "lab:0,0,0", "lab:1e9,0,0", "xyz:20,21,18", "#ggg", "kelp", "lab:NaN,0,0"];
    private static readonly string[] Words = ["D65", "A", "FL11", "D99", "black", "white", "grey", "matt", "gloss", "csv", "xlsx", "cgats", "cxf", "opaque", "photo", "2024-02-30", "2024-03-01", "base", "drops", "weighed"];
    private static readonly double[] Numbers = [0, 1, 2, 3, 5, 8, 12, 80, -1, 0.5, 55, 100, 400, 10, 1e308, -1e308, 1e-320, double.NaN, double.PositiveInfinity, double.NegativeInfinity, -0.0, 1e7];

    /// <summary>A message of a type.</summary>
    public static IMessage Of(Random random, MessageDescriptor type, int depth = 0)
    {
        var message = type.Parser.ParseFrom(ByteString.Empty);
        foreach (var field in type.Fields.InFieldNumberOrder())
        {
            // One of a oneof at most, most of the time; deep down less and less.
            if (random.NextDouble() < (depth > 4 ? 0.9 : field.RealContainingOneof is { } oneof ? 1 - 1.2 / oneof.Fields.Count : depth == 0 ? 0.35 : 0.5))
            {
                continue;
            }

            if (field.IsMap)
            {
                continue;
            }

            if (field.IsRepeated)
            {
                var list = (IList)field.Accessor.GetValue(message);
                for (var items = random.Next(20) == 0 ? random.Next(60) : random.Next(4); items > 0; items--)
                {
                    list.Add(ValueOf(random, field, depth));
                }
            }
            else
            {
                field.Accessor.SetValue(message, ValueOf(random, field, depth));
            }
        }

        return message;
    }

    private static object ValueOf(Random random, FieldDescriptor field, int depth) => field.FieldType switch
    {
        FieldType.Message or FieldType.Group => Of(random, field.MessageType, depth + 1),
        FieldType.Double => NumberOf(random),
        FieldType.Float => (float)NumberOf(random),
        FieldType.Bool => random.Next(2) == 0,
        FieldType.Int32 or FieldType.SInt32 or FieldType.SFixed32 => random.Next(4) > 0 ? random.Next(-1, 14) : random.Next(int.MinValue, int.MaxValue),
        FieldType.UInt32 or FieldType.Fixed32 => random.Next(4) > 0 ? (uint)random.Next(14) : uint.MaxValue - (uint)random.Next(3),
        FieldType.Int64 or FieldType.SInt64 or FieldType.SFixed64 => random.Next(4) > 0 ? random.Next(-1, 14) : random.NextInt64(long.MinValue, long.MaxValue),
        FieldType.UInt64 or FieldType.Fixed64 => random.Next(4) > 0 ? (ulong)random.Next(14) : ulong.MaxValue - (ulong)random.Next(3),
        FieldType.Bytes => ByteString.CopyFrom(BytesOf(random)),
        FieldType.Enum => Enum.ToObject(field.EnumType.ClrType, random.Next(5) == 0 ? random.Next(-5, 1000) : field.EnumType.Values[random.Next(field.EnumType.Values.Count)].Number),
        _ => TextOf(random, field.Name),
    };

    private static byte[] BytesOf(Random random) => random.Next(3) == 0 ? [] : Mutation.Of(random, [FileSeeds.Tables[random.Next(FileSeeds.Tables.Count)].Bytes]);

    private static double NumberOf(Random random) => random.Next(2) == 0 ? Numbers[random.Next(Numbers.Length)] : random.Next(3) == 0 ? random.NextDouble() : Math.Round(random.NextDouble() * 60, 2);

    private static string TextOf(Random random, string field)
    {
        var likely = field switch
        {
            _ when field.Contains("shelf") => random.Next(4) > 0 ? ["home"] : ["no such", "HOME", ""],
            _ when field.Contains("recipe") || field == "text" => Recipes,
            _ when field.Contains("paint") || field.Contains("medium") || field == "id" => Paints,
            _ when field.Contains("color") || field.Contains("target") || field.Contains("hex") => Colors,
            _ => Words,
        };
        return random.Next(12) switch
        {
            0 => Mutation.Token(random).Replace("\uD83D\uDE00", "x", StringComparison.Ordinal),
            1 => new string('x', random.Next(3000)),
            2 => Any(random, [.. Paints, .. Recipes, .. Colors, .. Words]),
            _ => Any(random, likely),
        };
    }

    private static string Any(Random random, string[] of) => of[random.Next(of.Length)];
}
