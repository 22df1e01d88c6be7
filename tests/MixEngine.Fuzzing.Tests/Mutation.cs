using System.IO.Compression;
using System.Text;

namespace MixEngine.Fuzzing.Tests;

/// <summary>Damages a file as disks, editors, spreadsheets and malice do.</summary>
internal static class Mutation
{
    // What has broken readers of tables, numbers, JSON and XML.
    private static readonly string[] Tokens =
    [
        "NaN", "Infinity", "-Infinity", "1e308", "1e-320", "-0", "-1", "0", "00000000000000000000001", "9223372036854775808", "9007199254740993", "1,5", "0x1F", "45 %",
        "\0", "\"", "\"\"", "'", ",", ";", "\t", "\n", "\r", "\r\n", "\uFEFF", "\u2028", "\u202E", "\uD83D\uDE00", "=1+1", "#", "#ggg", "#12345", "{", "}", "[", "]", "[[", "null", "true",
        "<", ">", "&", "&amp;", "<!--", "<![CDATA[", "<!DOCTYPE a [<!ENTITY b 'c'>]>", "&b;", "END_DATA", "BEGIN_DATA", "NUMBER_OF_SETS 5", "../../etc", "%s%n", "\\u0000", "\\",
    ];

    /// <summary>One to three damages to a seed, now and then with a piece of another.</summary>
    public static byte[] Of(Random random, IReadOnlyList<byte[]> seeds)
    {
        var seed = seeds[random.Next(seeds.Count)];

        // Damage to an archive as a whole says little of what reads its parts.
        return seed.AsSpan().StartsWith("PK"u8) && random.Next(4) > 0 ? OfOnePart(random, seed) : Damaged(random, seed, seeds);
    }

    private static byte[] OfOnePart(Random random, byte[] archive)
    {
        using var read = new ZipArchive(new MemoryStream(archive), ZipArchiveMode.Read);
        var changed = new MemoryStream();
        using (var write = new ZipArchive(changed, ZipArchiveMode.Create, leaveOpen: true))
        {
            var damaged = random.Next(read.Entries.Count);
            foreach (var (i, part) in read.Entries.Index())
            {
                using var content = part.Open();
                var bytes = new MemoryStream();
                content.CopyTo(bytes);
                using var copy = write.CreateEntry(part.FullName, CompressionLevel.NoCompression).Open();
                copy.Write(i == damaged ? Damaged(random, bytes.ToArray(), [bytes.ToArray()]) : bytes.ToArray());
            }
        }

        return changed.ToArray();
    }

    private static byte[] Damaged(Random random, byte[] seed, IReadOnlyList<byte[]> seeds)
    {
        var bytes = new List<byte>(seed);
        for (var times = random.Next(1, 4); times > 0; times--)
        {
            if (random.Next(2) == 0)
            {
                ReplaceWord(random, bytes);
            }
            else
            {
                Damage(random, bytes, seeds);
            }
        }

        return [.. bytes];
    }

    // A word or a number becomes another one of the same text, or something hostile: the notation stays sound, and the meaning does not.
    private static void ReplaceWord(Random random, List<byte> bytes)
    {
        var (start, length) = WordAt(bytes, random.Next(bytes.Count + 1));
        var (from, count) = WordAt(bytes, random.Next(bytes.Count + 1));
        var word = random.Next(2) == 0 ? bytes.GetRange(from, count) : [.. Encoding.UTF8.GetBytes(Token(random))];
        bytes.RemoveRange(start, length);
        bytes.InsertRange(start, word);
    }

    private static (int Start, int Length) WordAt(List<byte> bytes, int place)
    {
        static bool IsWord(byte b) => char.IsAsciiLetterOrDigit((char)b) || b is (byte)'.' or (byte)'-' or (byte)'#' or (byte)'_';
        while (place < bytes.Count && !IsWord(bytes[place]))
        {
            place++;
        }

        var (start, end) = (place, place);
        while (start > 0 && IsWord(bytes[start - 1]))
        {
            start--;
        }

        while (end < bytes.Count && IsWord(bytes[end]))
        {
            end++;
        }

        return (start, end - start);
    }

    private static void Damage(Random random, List<byte> bytes, IReadOnlyList<byte[]> seeds)
    {
        var place = random.Next(bytes.Count + 1);
        var length = Math.Min(bytes.Count - place, random.Next(4) == 0 ? random.Next(400) : random.Next(12));
        switch (random.Next(8))
        {
            case 0 when bytes.Count > place:
                bytes[place] ^= (byte)(1 << random.Next(8));
                break;
            case 1 when bytes.Count > place:
                bytes[place] = (byte)random.Next(256);
                break;
            case 2:
                bytes.RemoveRange(place, length);
                break;
            case 3:
                bytes.InsertRange(random.Next(bytes.Count + 1), bytes.GetRange(place, length));
                break;
            case 4:
                // Cut off, as a full disk leaves it.
                bytes.RemoveRange(place, bytes.Count - place);
                break;
            case 5:
                var other = seeds[random.Next(seeds.Count)];
                var from = random.Next(other.Length + 1);
                bytes.InsertRange(place, other.AsSpan(from, Math.Min(other.Length - from, random.Next(200))).ToArray());
                break;
            default:
                var token = Encoding.UTF8.GetBytes(Tokens[random.Next(Tokens.Length)]);
                if (random.Next(2) == 0)
                {
                    bytes.RemoveRange(place, length);
                }

                bytes.InsertRange(place, token);
                break;
        }
    }

    /// <summary>A hostile text.</summary>
    public static string Token(Random random) => Tokens[random.Next(Tokens.Length)];
}
