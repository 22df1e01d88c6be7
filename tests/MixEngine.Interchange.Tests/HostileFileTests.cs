using CsCheck;

namespace MixEngine.Interchange.Tests;

public class HostileFileTests
{
    /// <summary>Bytes of a written table, a few of them changed, dropped, doubled or cut off.</summary>
    private static Gen<byte[]> Mutated(Gen<byte[]> files) =>
        Gen.Select(files, Gen.Select(Gen.Int[0, 4], Gen.Double.Unit, Gen.Byte).List[1, 6], (file, changes) =>
        {
            var bytes = new List<byte>(file);
            foreach ((int kind, double place, byte value) in changes)
            {
                int at = (int)(place * bytes.Count);
                switch (bytes.Count == 0 ? -1 : kind)
                {
                    case 0: bytes[at] = value; break;
                    case 1: bytes.RemoveAt(at); break;
                    case 2: bytes.Insert(at, value); break;
                    case 3: bytes.InsertRange(at, bytes.GetRange(at, Math.Min(20, bytes.Count - at))); break;
                    case 4 when value < 64: bytes.RemoveRange(at, bytes.Count - at); break;
                }
            }
            return bytes.ToArray();
        });

    private static void IsTableOrFaults<T>(ReadResult<T> result) where T : class
    {
        Assert.Equal(result.Table is null, result.Faults.Count > 0);
        Assert.All(result.Faults, f => Assert.False(string.IsNullOrWhiteSpace(f.Expected) || string.IsNullOrWhiteSpace(f.Remedy) || string.IsNullOrWhiteSpace(f.Field)));
        Assert.All(result.Faults, f => Assert.DoesNotContain(f.ToString(), char.IsControl));
    }

    [Theory]
    [InlineData(TableFormat.Csv)]
    [InlineData(TableFormat.CsvLong)]
    [InlineData(TableFormat.Xlsx)]
    [InlineData(TableFormat.Cgats)]
    [InlineData(TableFormat.Cxf)]
    public void A_damaged_swatch_table_is_a_table_or_faults_never_an_exception(TableFormat format)
    {
        Mutated(Some.SmallSwatchTable.Select(t => Given.Written(t, format))).Sample(file => IsTableOrFaults(Given.Swatches(file)), iter: 600);
    }

    [Theory]
    [InlineData(TableFormat.Csv)]
    [InlineData(TableFormat.Xlsx)]
    public void A_damaged_shelf_table_is_a_table_or_faults_never_an_exception(TableFormat format)
    {
        Mutated(Some.SmallShelfTable.Select(t => Given.Written(t, format))).Sample(file => IsTableOrFaults(Given.Shelf(file)), iter: 600);
    }

    [Fact]
    public void Random_bytes_and_random_words_are_a_table_or_faults()
    {
        Gen.Byte.Array[0, 200].Sample(file => { IsTableOrFaults(Given.Shelf(file)); IsTableOrFaults(Given.Swatches(file)); }, iter: 1000);

        Gen<string> word = Gen.Int[0, 24].Select(i => ((string[])["name", "hex", "L", "a", "b", "nm", "value", "sample_id", "400", "R700", "CGATS.17", "BEGIN_DATA_FORMAT", "END_DATA_FORMAT",
            "BEGIN_DATA", "END_DATA", "NUMBER_OF_SETS", "KEYWORD", "\"", "#ccc", "0.5", "<cc:CxF", "PK", "SPECTRAL_NM", "SPECTRAL_PCT", "-"])[i]);
        Gen<string> separator = Gen.Int[0, 5].Select(i => ((string[])[",", ";", "\t", "\n", " ", "\r\n"])[i]);
        Gen.Select(word, separator).Array[1, 60].Select(a => string.Concat(a.Select(p => p.Item1 + p.Item2)))
            .Sample(text => { IsTableOrFaults(Given.Shelf(text)); IsTableOrFaults(Given.Swatches(text)); }, iter: 3000);
    }
}
