namespace MixEngine.Colorimetry.Tests;

public class DeltaE2000Tests
{
    [Fact]
    public void Reproduces_the_34_pairs_of_Sharma_2005()
    {
        var table = PublishedTable.Load("sharma2005-ciede2000.csv");
        Assert.Equal(34, table.Rows.Count);
        foreach (var row in table.Rows)
        {
            var first = new Lab(row["L1"], row["a1"], row["b1"]);
            var second = new Lab(row["L2"], row["a2"], row["b2"]);

            // All printed to four decimals, though the file drops trailing zeros.
            Assert.Equal(row["dE00"], DeltaE2000.Between(first, second), 0.00005);
            Assert.Equal(row["dE00"], DeltaE2000.Between(second, first), 0.00005);
        }
    }
}
