using System.Text;
using ExcelDataReader;
using MixEngine.Core;
using MixEngine.Planning;
using MixEngine.Planning.Tests;

namespace MixEngine.Reports.Tests;

public class SchemeFilesTests
{
    private static readonly DateTimeOffset Made = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);
    private static readonly Lazy<SchemePlan> Plan = new(() => SchemeSolver.Solve(TideFolk.Input));
    private static readonly Lazy<ReportFile[]> Files = new(() => [.. SchemeFiles.Write(Plan.Value, SchemeFiles.Formats.ToHashSet(), Made)]);

    [Fact]
    public void Every_figure_has_its_page_and_its_picture()
    {
        Assert.Equal(12, Files.Value.Count(file => file.Name.StartsWith("strips/", StringComparison.Ordinal)));
        Assert.All(Files.Value.Where(file => file.Name.EndsWith(".png", StringComparison.Ordinal)), file => Assert.Equal([0x89, 0x50, 0x4E, 0x47], file.Content.Take(4)));
        Assert.Equal(13, Text("cards.html").Split("<section>").Length - 1);
        Assert.Equal("%PDF-", Encoding.ASCII.GetString(File("cards.pdf")[..5]));

        // Look at them: MIXENGINE_KEEP_CARDS names a folder to leave them in.
        if (Environment.GetEnvironmentVariable("MIXENGINE_KEEP_CARDS") is { Length: > 0 } folder)
        {
            foreach (var file in Files.Value)
            {
                Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(folder, file.Name))!);
                System.IO.File.WriteAllBytes(Path.Combine(folder, file.Name), file.Content);
            }
        }
    }

    [Fact]
    public void Every_step_stands_on_the_page_with_words_and_numbers()
    {
        var html = Text("cards.html");
        Assert.All(CardBook.Of(Plan.Value).Figures.SelectMany(figure => figure.Areas).SelectMany(area => area.Steps), step =>
        {
            Assert.Contains(System.Net.WebUtility.HtmlEncode(step.Percent), html, StringComparison.Ordinal);
            Assert.Contains(step.Color.LabText, html, StringComparison.Ordinal);
            Assert.Contains(step.Color.Words, html, StringComparison.Ordinal);
        });
        Assert.Contains(System.Net.WebUtility.HtmlEncode(Caution.Deferring), html, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_from_a_file_are_text_on_the_page_and_never_markup_or_formulas()
    {
        var wicked = TideFolk.Read("name = \"<script>x</script>\"\nshelf = \"demo\"\n[[figure]]\nname = \"=1+1\"\n[[figure.area]]\nname = \"a & b\"\nrole = \"single\"\ntarget = \"#4f3d2e\"\n");
        var files = SchemeFiles.Write(SchemeSolver.Solve(TideFolk.InputOf(wicked, TideFolk.Shelf), cancellation: TestContext.Current.CancellationToken), ["html", "csv", "png"], Made).ToArray();
        var html = Encoding.UTF8.GetString(files.Single(file => file.Name == "cards.html").Content);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.Contains("a &amp; b", html, StringComparison.Ordinal);
        Assert.Contains("'=1+1", Encoding.UTF8.GetString(files.Single(file => file.Name == "tables/steps.csv").Content), StringComparison.Ordinal);
        Assert.All(files, file => Assert.DoesNotContain("..", file.Name, StringComparison.Ordinal));
    }

    [Fact]
    public void The_workbook_opens_in_another_reader_with_every_step()
    {
        // The reader asks for a code page that only old files need.
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        using var reader = ExcelReaderFactory.CreateOpenXmlReader(new MemoryStream(File("scheme.xlsx")));
        Assert.Equal(6, reader.ResultsCount);
        Assert.Equal("steps", reader.Name);
        Assert.Equal(Plan.Value.Layers.Count() + 1, reader.RowCount);
        reader.Read();
        reader.Read();
        Assert.Equal(Plan.Value.Areas[0].Figure.Name, reader.GetString(0));
        Assert.Equal(Plan.Value.Areas[0].Figure.Count, reader.GetDouble(1));
    }

    [Fact]
    public void Another_shelf_stands_beside_the_own_one_step_by_step()
    {
        var elsewhere = SchemeComparison.Of(Plan.Value, Plan.Value);
        var files = SchemeFiles.Write(Plan.Value, ["html", "pdf", "csv"], Made, elsewhere).ToDictionary(file => file.Name, file => file.Content);
        Assert.Contains("From the other shelf", Encoding.UTF8.GetString(files["cards.html"]), StringComparison.Ordinal);
        Assert.Equal(elsewhere.Steps.Count + 1, Encoding.UTF8.GetString(files["tables/comparison.csv"]).Count(c => c == '\n'));
        Assert.True(files["cards.pdf"].Length > File("cards.pdf").Length);
    }

    [Fact]
    public void The_tables_have_a_row_for_each_step() =>
        Assert.Equal(Plan.Value.Layers.Count() + 1, Text("tables/steps.csv").Count(c => c == '\n'));

    [Fact]
    public void The_same_plan_at_the_same_moment_gives_the_same_pictures_and_tables()
    {
        var again = SchemeFiles.Write(Plan.Value, ["html", "csv", "png"], Made).ToDictionary(file => file.Name, file => file.Content);
        Assert.All(again, file => Assert.Equal(file.Value, File(file.Key)));
    }

    private static byte[] File(string name) => Files.Value.Single(file => file.Name == name).Content;

    private static string Text(string name) => Encoding.UTF8.GetString(File(name));
}
