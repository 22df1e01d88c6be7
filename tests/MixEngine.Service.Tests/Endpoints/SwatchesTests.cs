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
    public void A_swatch_is_kept_fitted_and_listed()
    {
        Shelf("kept");
        var given = new Swatch
        {
            Recipe = Text("1 kelp + 4 chalk cliff"), Color = Color("#8a9b7c"), Source = "photo", Specular = "excluded", Finish = "matt", Date = "2026-11-25",
            Dosing = "weighed", ThicknessUm = 40, Coats = 2, Film = "drawdown", Backing = Color("white"), Note = "first",
        };
        var answer = service.Swatches.AddSwatch(new AddSwatchRequest { Shelf = "kept", Swatch = given });
        given.Id = "s1";
        Assert.Equal(given, answer.Fit.Swatch);
        Assert.Equal("#8a9b7c", answer.Fit.Measured.Hex);
        Assert.InRange(answer.Fit.DeltaE00, 0, 20);
        Assert.Equal(answer.Fit, Assert.Single(List("kept").Swatches));
        Assert.Equal(["kelp", "chalk cliff"], answer.Paints.Select(paint => paint.Paint));
        Assert.Equal(("colour", "drawdown"), (answer.Paints[0].GradeBefore, answer.Paints[0].GradeAfter));
        Assert.True(answer.Paints[0].ErrorAfter.BoundDeltaE00 < answer.Paints[0].ErrorBefore.BoundDeltaE00);
    }

    [Fact]
    public void Every_answer_uses_what_was_learnt_and_forgets_it_with_the_swatch()
    {
        Shelf("learnt");
        var before = Predict("learnt");
        service.Swatches.AddSwatch(new AddSwatchRequest { Shelf = "learnt", Swatch = new Swatch { Recipe = Text("1 kelp + 1 chalk cliff"), Color = Color("#9aa58c"), Source = "instrument" } });
        var after = Predict("learnt");
        Assert.NotEqual(before.Color.Hex, after.Color.Hex);
        Assert.True(after.ExpectedError.BoundDeltaE00 < before.ExpectedError.BoundDeltaE00);
        Assert.Equal(after.Color, service.Mixing.Ramp(new RampRequest { Shelf = "learnt", Through = { Text("kelp"), Text("1 kelp + 1 chalk cliff") }, Steps = 2 }).Steps[^1].Color);

        service.Swatches.RemoveSwatch(new RemoveSwatchRequest { Shelf = "learnt", Id = "s1" });
        Assert.Equal(before, Predict("learnt"));
    }

    [Fact]
    public void Nothing_is_lost_when_paints_change_go_and_come_back()
    {
        Shelf("lasting");
        service.Swatches.ImportSwatches(File("lasting", Table));
        var swatches = List("lasting").Swatches.Select(fit => fit.Swatch).ToArray();
        service.Import("lasting", "name,hex\nkelp,#556644\n");
        service.Shelves.RemovePaint(new RemovePaintRequest { Shelf = "lasting", Paint = "chalk cliff" });
        var without = List("lasting").Swatches;
        Assert.Equal(swatches, without.Select(fit => fit.Swatch));
        Assert.Contains("there is no 'chalk cliff' on the shelf any more", without[0].Remark);
        Assert.False(without[0].HasDeltaE00);
        Assert.True(without[2].HasDeltaE00);
        Assert.Equal("colour", service.Shelves.GetPaint(new GetPaintRequest { Shelf = "lasting", Paint = "kelp" }).Paint.Grade);

        service.Import("lasting", "name,hex,opacity\nChalk  Cliff,#f2efe6,opaque\n");
        Assert.True(List("lasting").Swatches[0].HasDeltaE00);
    }

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

    [Fact]
    public void A_paint_is_shown_with_its_evidence_and_what_would_make_it_surer()
    {
        Shelf("shown");
        var ignorant = service.Swatches.AdviseSwatch(new AdviseSwatchRequest { Shelf = "shown", Paint = "kelp" });
        Assert.Equal(3, ignorant.Advice.Count);
        Assert.All(ignorant.Advice, advice => Assert.True(advice.BoundAfterDeltaE00 < advice.BoundNowDeltaE00));
        Assert.Contains("kelp", ignorant.Advice[0].Recipe.Parts.Select(part => part.Paint));

        service.Swatches.ImportSwatches(File("shown", Table));
        var paint = service.Shelves.GetPaint(new GetPaintRequest { Shelf = "shown", Paint = "kelp" });
        Assert.Equal("ladder", paint.Paint.Grade);
        Assert.Equal(["k-1", "k-2"], paint.Evidence.Select(fit => fit.Swatch.Id));
        Assert.All(paint.Evidence, fit => Assert.True(fit.HasDeltaE00));
        Assert.Single(service.Swatches.AdviseSwatch(new AdviseSwatchRequest { Shelf = "shown", Paint = "kelp", Count = 1 }).Advice);
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
        Assert.Contains("advice", await Send(HttpMethod.Get, "paints/kelp:advise"));
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
