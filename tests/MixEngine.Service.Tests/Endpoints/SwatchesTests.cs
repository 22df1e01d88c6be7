using Google.Protobuf;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>Swatches, kept by the real client over the socket, and what is learnt from them.</summary>
public sealed class SwatchesTests(TestService service) : IClassFixture<TestService>
{
    private const string Table = """
        sample_id,of,hex,over,film,thickness_um,coats,dosing,finish,specular,source,date,note
        k-1,1 kelp + 4 chalk cliff,#8a9b7c,,,,,,matt,excluded,photo,2026-11-25,first
        k-2,1 kelp + 9 chalk cliff,#a8b49d,,,,,weighed,,,photo,,
        f-b,tide pool,#20545c,black,film 1,30,2,,,,photo,,
        f-w,tide pool,#4f98a3,white,film 1,30,2,,,,photo,,
        """;

    [Fact]
    public void An_import_says_what_it_did_and_a_second_one_does_nothing()
    {
        Shelf("import");
        var dry = service.Swatches.ImportSwatches(File("import", Table, dryRun: true));
        Assert.Equal((4, 0, true), (dry.Added, dry.AlreadyThere, dry.DryRun));
        Assert.Equal(0, List("import").Total);
        var first = service.Swatches.ImportSwatches(File("import", Table));
        Assert.Equal(dry.Paints, first.Paints);
        Assert.Equal(["kelp", "tide pool", "chalk cliff"], first.Paints.Select(paint => paint.Paint));
        Assert.Equal(["k-1", "k-2", "f-b", "f-w"], List("import").Swatches.Select(fit => fit.Swatch.Id));
        var second = service.Swatches.ImportSwatches(File("import", Table));
        Assert.Equal((0, 4), (second.Added, second.AlreadyThere));
    }

    [Theory]
    [InlineData("csv")]
    [InlineData("csv-long")]
    [InlineData("cgats")]
    [InlineData("cxf")]
    [InlineData("xlsx")]
    public void What_is_exported_is_imported_identically(string format)
    {
        Shelf($"out-{format}");
        Shelf($"in-{format}");
        service.Swatches.ImportSwatches(File($"out-{format}", Table));
        service.Swatches.AddSwatch(new AddSwatchRequest { Shelf = $"out-{format}", Swatch = new Swatch { Recipe = Text("2 kelp + 0.125 water + 1 rust, old"), Color = Spectrum(nm => nm / 2000), Backing = Spectrum(_ => 0.9), Film = "thin" } });
        var export = service.Swatches.ExportSwatches(new ExportSwatchesRequest { Shelf = $"out-{format}", Format = format });
        var same = service.Swatches.ImportSwatches(new ImportSwatchesRequest { Shelf = $"out-{format}", FileName = export.FileName, Content = export.Content });
        Assert.Equal((0, 5), (same.Added, same.AlreadyThere));
        service.Swatches.ImportSwatches(new ImportSwatchesRequest { Shelf = $"in-{format}", FileName = export.FileName, Content = export.Content });
        Assert.Equal(List($"out-{format}").Swatches, List($"in-{format}").Swatches);
    }

    [Fact]
    public void A_swatch_is_corrected_as_it_was_listed()
    {
        Shelf("correct");
        service.Swatches.ImportSwatches(File("correct", Table));
        var swatch = List("correct").Swatches[0].Swatch;
        swatch.Recipe = Text("1 kelp + 5 chalk cliff");
        var answer = service.Swatches.CorrectSwatch(new CorrectSwatchRequest { Shelf = "correct", Swatch = swatch });
        Assert.Equal("1 kelp + 4 chalk cliff", answer.Before.Recipe.Text);
        Assert.Equal(swatch, answer.Fit.Swatch);
        Assert.Equal(swatch, List("correct").Swatches[0].Swatch);
    }

    [Fact]
    public void Pages_go_through_all_swatches_of_a_paint_once()
    {
        Shelf("pages");
        service.Swatches.ImportSwatches(File("pages", Table));
        var first = service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = "pages", Paint = "kel", PageSize = 1 });
        var second = service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = "pages", Paint = "kel", PageSize = 1, PageToken = first.NextPageToken });
        Assert.Equal((2, 2, ""), (first.Total, second.Total, second.NextPageToken));
        Assert.Equal(["k-1", "k-2"], new[] { first, second }.SelectMany(page => page.Swatches).Select(fit => fit.Swatch.Id));
    }

    /// <summary>A bottle whose drops were counted doses more surely than one whose drops were not.</summary>
    [Fact]
    public void Counted_drops_make_mixtures_surer()
    {
        service.Import("counted", "name,hex,drops_per_ml\nkelp,#3f4a2b,20\nchalk cliff,#f2efe6,20\n");
        service.Import("uncounted", "name,hex,drops_per_ml\nkelp,#3f4a2b,\nchalk cliff,#f2efe6,\n");
        Assert.Equal(Predict("counted").Color, Predict("uncounted").Color);
        Assert.True(Predict("counted").ExpectedError.BoundDeltaE00 < Predict("uncounted").ExpectedError.BoundDeltaE00);
    }

    [Fact]
    public async Task Swatches_are_kept_over_json_too()
    {
        Shelf("json-swatches");
        var stop = TestContext.Current.CancellationToken;
        async Task<string> Send(HttpMethod method, string path, string? body = null)
        {
            using var request = new HttpRequestMessage(method, $"/v1/shelves/json-swatches/{path}") { Content = body is null ? null : new StringContent(body, new System.Net.Http.Headers.MediaTypeHeaderValue("application/json")) };
            var response = await service.Http.SendAsync(request, stop);
            var text = await response.Content.ReadAsStringAsync(stop);
            Assert.True(response.IsSuccessStatusCode, text);
            return text;
        }

        Assert.Contains("\"s1\"", await Send(HttpMethod.Post, "swatches", """{"recipe": {"text": "1 kelp + 4 chalk cliff"}, "color": {"text": "#8a9b7c"}}"""));
        Assert.Contains("+ 5 chalk", await Send(HttpMethod.Put, "swatches/s1", """{"recipe": {"text": "1 kelp + 5 chalk cliff"}, "color": {"text": "#8a9b7c"}}"""));
        Assert.Contains("+ 5 chalk", await Send(HttpMethod.Get, "swatches?paint=kelp"));
        Assert.Contains("content", await Send(HttpMethod.Get, "swatches:export"));
        Assert.Contains("dryRun", await Send(HttpMethod.Post, "swatches:import", $$"""{"content": "{{ByteString.CopyFromUtf8(Table).ToBase64()}}", "dryRun": true}"""));
        Assert.Contains("removed", await Send(HttpMethod.Delete, "swatches/s1"));
    }

    private static RecipeInput Text(string text) => new() { Text = text };

    private static ColorInput Color(string text) => new() { Text = text };

    private static ColorInput Spectrum(Func<double, double> reflectance)
    {
        var spectrum = new Spectrum();
        for (var nm = 400; nm <= 700; nm += 20)
        {
            spectrum.WavelengthNm.Add(nm);
            spectrum.Reflectance.Add(reflectance(nm));
        }

        return new ColorInput { Spectrum = spectrum };
    }

    private static ImportSwatchesRequest File(string shelf, string table, bool dryRun = false) =>
        new() { Shelf = shelf, FileName = "swatches.csv", Content = ByteString.CopyFromUtf8(table), DryRun = dryRun };

    private void Shelf(string name) => service.Import(name, Coast.Table);

    private ListSwatchesResponse List(string shelf) => service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = shelf });

    private PredictResponse Predict(string shelf) => service.Mixing.Predict(new PredictRequest { Shelf = shelf, Recipe = Text("1 kelp + 1 chalk cliff") });
}
