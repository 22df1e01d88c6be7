using System.Text;

namespace MixEngine.Cli.Tests.Running;

/// <summary>Reads CSV as RFC 4180 defines it, strictly: an unquoted quote or a row of another length is a fault.</summary>
public static class CsvText
{
    public static IReadOnlyList<string[]> Read(string text)
    {
        var rows = new List<string[]>();
        var row = new List<string>();
        var cell = new StringBuilder();
        for (int i = 0; i < text.Length;)
        {
            cell.Clear();
            if (text[i] == '"')
            {
                for (i++; text[i] != '"' || (i + 1 < text.Length && text[i + 1] == '"'); i++)
                {
                    cell.Append(text[i]);
                    i += text[i] == '"' ? 1 : 0;
                }
                i++;
            }
            else
            {
                for (; text[i] is not (',' or '\n'); i++)
                {
                    Assert.NotEqual('"', text[i]);
                    cell.Append(text[i]);
                }
            }
            row.Add(cell.ToString());
            if (text[i] == '\n')
            {
                rows.Add([.. row]);
                row.Clear();
                Assert.Equal(rows[0].Length, rows[^1].Length);
            }
            i++;
        }
        Assert.Empty(row);
        return rows;
    }
}
