using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Calls;

/// <summary>Each kind of bad evidence has its answer in plain words, and nothing that is stored is lost.</summary>
public sealed class BadSwatchTests(TestService service) : IClassFixture<TestService>
{
    [Fact]
    public void Contradictory_swatches_are_all_kept_and_the_odd_one_is_named_first()
    {
        service.Import("odd", Coast.Table);
        string Hex(string recipe) => service.Mixing.Predict(new PredictRequest { Shelf = "odd", Recipe = new RecipeInput { Text = recipe } }).Color.Hex;
        string[] labelled = ["kelp", "1 kelp + 1 chalk cliff", "1 kelp + 2 chalk cliff", "1 kelp + 4 chalk cliff", "1 kelp + 9 chalk cliff", "chalk cliff"];
        var table = "sample_id,of,hex,source\n" + string.Concat(labelled.Select((of, i) => $"k{i},{of},{Hex(of)},photo\n"));
        Import("odd", table + $"odd,1 kelp + 4 chalk cliff,#8a5020,photo\n");
        var list = service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = "odd", SuspectsFirst = true });
        Assert.Equal(7, list.Total);
        Assert.Equal("odd", list.Swatches[0].Swatch.Id);
        Assert.True(list.Swatches[0].Suspect);
        Assert.DoesNotContain(list.Swatches.Skip(1), fit => fit.Suspect);
    }

    [Fact]
    public void The_same_swatch_twice_is_kept_and_counted_once()
    {
        service.Import("twice", Coast.Table);
        var first = service.Swatches.AddSwatch(Add("twice", "1 kelp + 4 chalk cliff", "#8a9b7c"));
        var second = service.Swatches.AddSwatch(Add("twice", "1 kelp + 4 chalk cliff", "#8a9b7c"));
        Assert.Contains("The very same is kept already as 's1'", Assert.Single(second.Remarks));
        Assert.Equal(first.Fit, second.Fit);

        // The same reading with another note is kept, and says no more than once.
        var noted = Add("twice", "1 kelp + 4 chalk cliff", "#8a9b7c");
        noted.Swatch.Note = "from the other side";
        var third = service.Swatches.AddSwatch(noted);
        Assert.Contains("counted once", third.Fit.Remark);
        Assert.Equal(first.Paints[0].ErrorAfter, third.Paints[0].ErrorAfter);
    }

    [Fact]
    public Task A_let_down_with_no_parts_is_refused() =>
        Refused(Add("home", "1 kelp + 0 chalk cliff", "#8a9b7c"), "swatch.recipe.text", "0 parts of 'chalk cliff'; a number above 0 is needed");

    [Fact]
    public void A_black_darker_than_its_surface_is_kept_and_said()
    {
        service.Import("dark", Coast.Table);
        var add = Add("dark", "tarred rope", "#050505");
        (add.Swatch.Source, add.Swatch.Specular) = ("instrument", "included");
        var answer = service.Swatches.AddSwatch(add);
        Assert.Contains("darker than its surface alone would look", answer.Fit.Remark);
        Assert.True(double.IsFinite(answer.Fit.DeltaE00));
    }

    [Fact]
    public Task A_reflectance_above_1_is_refused_as_fluorescent_or_of_another_scale() =>
        Refused(Add("home", Spectrum(nm => nm == 560 ? 1.2 : 0.5)), "swatch.color.spectrum", "fluorescent");

    [Fact]
    public Task A_reflectance_of_percent_is_refused_with_its_wavelength() =>
        Refused(Add("home", Spectrum(_ => 50)), "swatch.color.spectrum", "400 nm is 50");

    [Fact]
    public async Task Fluorescent_readings_in_a_file_are_refused_with_line_and_band()
    {
        var refusal = await Assert.ThrowsAsync<RpcException>(() => service.Swatches.ImportSwatchesAsync(File("home", Wide("0.5,0.5,1.31,0.9,0.5,0.5,0.5,0.5"), "fraction")).ResponseAsync);
        Assert.Contains("line 2, 480 nm: found \"1.31\", expected 0 to 1. Fluorescent, or on another scale", refusal.Status.Detail);
    }

    [Fact]
    public Task A_spectrum_with_a_gap_is_refused_with_its_place()
    {
        var spectrum = Spectrum(_ => 0.5);
        for (var i = 0; i < 3; i++)
        {
            spectrum.WavelengthNm.RemoveAt(5);
            spectrum.Reflectance.RemoveAt(5);
        }

        return Refused(Add("home", spectrum), "swatch.color.spectrum", "nm apart; more than 40 nm cannot be interpolated");
    }

    [Fact]
    public async Task A_gap_in_a_file_is_refused_with_line_and_band()
    {
        var refusal = await Assert.ThrowsAsync<RpcException>(() => service.Swatches.ImportSwatchesAsync(File("home", Wide("0.5,0.5,,0.9,0.5,0.5,0.5,0.5"), "fraction")).ResponseAsync);
        Assert.Contains("line 2, 480 nm: found nothing", refusal.Status.Detail);
    }

    [Fact]
    public void A_film_darker_over_white_than_over_black_is_kept_and_not_believed()
    {
        service.Import("swapped", Coast.Table);
        var before = service.Shelves.GetPaint(new GetPaintRequest { Shelf = "swapped", Paint = "tide pool" });
        Import("swapped", "sample_id,of,hex,over,film\nb,tide pool,#4f98a3,black,one\nw,tide pool,#20545c,white,one\n");
        var list = service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = "swapped" });
        Assert.Equal(2, list.Total);
        Assert.All(list.Swatches, fit => Assert.Contains("'w' reads darker over the lighter ground", fit.Remark));
        Assert.All(list.Swatches, fit => Assert.False(fit.HasDeltaE00));
        Assert.Equal(before.ScatteringPerUm, service.Shelves.GetPaint(new GetPaintRequest { Shelf = "swapped", Paint = "tide pool" }).ScatteringPerUm);

        // Corrected, it counts.
        var swatches = list.Swatches.Select(fit => fit.Swatch).ToArray();
        (swatches[0].Backing.Text, swatches[1].Backing.Text) = ("white", "black");
        service.Swatches.CorrectSwatch(new CorrectSwatchRequest { Shelf = "swapped", Swatch = swatches[0] });
        service.Swatches.CorrectSwatch(new CorrectSwatchRequest { Shelf = "swapped", Swatch = swatches[1] });
        Assert.Equal("drawdown", service.Shelves.GetPaint(new GetPaintRequest { Shelf = "swapped", Paint = "tide pool" }).Paint.Grade);
    }

    [Fact]
    public void A_ladder_without_a_white_is_kept_and_said()
    {
        service.Import("no-white", Coast.Table);
        Import("no-white", "of,hex\n1 kelp + 1 tarred rope,#353a28\n1 kelp + 3 tarred rope,#302e24\n");
        var paint = service.Shelves.GetPaint(new GetPaintRequest { Shelf = "no-white", Paint = "kelp" }).Paint;
        Assert.Contains(paint.Remarks, remark => remark.Contains("No let-down with a white", StringComparison.Ordinal));
    }

    [Fact]
    public async Task One_film_of_two_recipes_is_refused()
    {
        service.Import("films", Coast.Table);
        var first = Add("films", "kelp", "#3f4a2b");
        first.Swatch.Film = "one";
        service.Swatches.AddSwatch(first);
        var second = Add("films", "tide pool", "#2f6f78");
        second.Swatch.Film = "one";
        await Refused(second, "swatch.film", "The film 'one' of '1 tide pool' is that of 's1' too, which is of '1 kelp'; one film has one recipe");
        Assert.Equal(1, service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = "films" }).Total);
    }

    [Fact]
    public async Task A_file_is_read_whole_or_not_at_all()
    {
        service.Import("whole", Coast.Table);
        var refusal = await Assert.ThrowsAsync<RpcException>(() => service.Swatches.ImportSwatchesAsync(File("whole", "of,hex\nkelp,#3f4a2b\n2 kelq + 1 chalk cliff,#8a9b7c\nwater,#ffffff\n")).ResponseAsync);
        Assert.Equal(StatusCode.InvalidArgument, refusal.StatusCode);
        Assert.Contains("line 3, of: There is no paint 'kelq' on the shelf 'whole'. The nearest: 'kelp'", refusal.Status.Detail);
        Assert.Contains("line 4, of: '1 water' has no pigment", refusal.Status.Detail);
        Assert.Equal(0, service.Swatches.ListSwatches(new ListSwatchesRequest { Shelf = "whole" }).Total);
    }

    [Theory]
    [InlineData("source", "camera?", "'camera?' is none of the words for it; use instrument, photo or guess")]
    [InlineData("specular", "some", "use excluded or included")]
    [InlineData("finish", "shiny", "use matt, satin or gloss")]
    [InlineData("dosing", "guessed", "use drops or weighed")]
    [InlineData("date", "25.11.2026", "'25.11.2026' is no date; write it as year-month-day")]
    [InlineData("id", "s9", "the engine gives ids")]
    public Task A_word_at_fault_is_named(string field, string value, string description)
    {
        var add = Add("home", "kelp", "#3f4a2b");
        var descriptor = Swatch.Descriptor.FindFieldByName(field);
        descriptor.Accessor.SetValue(add.Swatch, value);
        return Refused(add, $"swatch.{field}", description);
    }

    [Fact]
    public Task A_thickness_of_nothing_is_refused()
    {
        var add = Add("home", "kelp", "#3f4a2b");
        add.Swatch.ThicknessUm = 0;
        return Refused(add, "swatch.thickness_um", "0 is not from 0.001 to 10000 micrometres");
    }

    [Fact]
    public async Task What_is_not_there_is_not_found()
    {
        var missing = await Assert.ThrowsAsync<RpcException>(() => service.Swatches.RemoveSwatchAsync(new RemoveSwatchRequest { Shelf = "home", Id = "s77" }).ResponseAsync);
        Assert.Equal(StatusCode.NotFound, missing.StatusCode);
        Assert.Contains("There is no swatch 's77' on the shelf 'home'", missing.Status.Detail);
    }

    private static AddSwatchRequest Add(string shelf, string recipe, string color) =>
        new() { Shelf = shelf, Swatch = new Swatch { Recipe = new RecipeInput { Text = recipe }, Color = new ColorInput { Text = color } } };

    private static AddSwatchRequest Add(string shelf, Spectrum spectrum) =>
        new() { Shelf = shelf, Swatch = new Swatch { Recipe = new RecipeInput { Text = "kelp" }, Color = new ColorInput { Spectrum = spectrum } } };

    private static Spectrum Spectrum(Func<double, double> reflectance)
    {
        var spectrum = new Spectrum();
        for (var nm = 400; nm <= 700; nm += 20)
        {
            spectrum.WavelengthNm.Add(nm);
            spectrum.Reflectance.Add(reflectance(nm));
        }

        return spectrum;
    }

    private static string Wide(string factors) => $"of,R400,R440,R480,R520,R560,R600,R640,R680\nkelp,{factors}\n";

    private static ImportSwatchesRequest File(string shelf, string table, string scale = "") =>
        new() { Shelf = shelf, FileName = "swatches.csv", Content = ByteString.CopyFromUtf8(table), Scale = scale };

    private void Import(string shelf, string table) => service.Swatches.ImportSwatches(File(shelf, table));

    private async Task Refused(AddSwatchRequest request, string field, string description)
    {
        var refusal = await Assert.ThrowsAsync<RpcException>(() => service.Swatches.AddSwatchAsync(request).ResponseAsync);
        Assert.Equal(StatusCode.InvalidArgument, refusal.StatusCode);
        var violations = refusal.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations;
        Assert.True(
            violations.Any(violation => violation.Field == field && violation.Description.Contains(description, StringComparison.Ordinal)),
            string.Join("\n", violations.Select(violation => $"{violation.Field}: {violation.Description}")));
    }
}
