using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Calls;

/// <summary>Each kind of refusal names the field and the value, and says what was expected.</summary>
public sealed class RefusalTests(TestService service) : IClassFixture<TestService>
{
    [Theory]
    [InlineData("", "recipe", "No recipe is given")]
    [InlineData("2 kelp + 1 sea", "", "")]
    [InlineData("2 kelq", "recipe.text", "There is no paint 'kelq' on the shelf 'home'. The nearest: 'kelp'")]
    [InlineData("kelq", "recipe.text", "'kelp'")]
    [InlineData("sea letuce", "recipe.text", "'sea lettuce'")]
    [InlineData("qqqqqqqqqqqqqqqq", "recipe.text", "List the shelf to see its names")]
    [InlineData("t", "recipe.text", "'t' may mean 'tarred rope', 'tide pool'; write more of the name")]
    [InlineData("2,5 kelp", "recipe.text", "'2,5' is no amount; write decimals with a point: 2.5.")]
    [InlineData("-1 kelp", "recipe.text", "'-1' is no amount")]
    [InlineData("0 kelp", "recipe.text", "0 parts of 'kelp'; a number above 0 is needed")]
    [InlineData("1.2.3 kelp", "recipe.text", "'1.2.3' is no amount")]
    [InlineData("99999999 kelp", "recipe.text", "99999999 parts of 'kelp'")]
    [InlineData("2 kelp +", "recipe.text", "nothing stands before or after a '+'")]
    [InlineData("kelp + kelp", "recipe", "'kelp' stands in the recipe 2 times; add its parts together")]
    [InlineData("2:1 kelp", "recipe.text", "'2:1' has 2 amounts, and 'kelp' 1 paint")]
    [InlineData("2:1:1 kelp : tide pool", "recipe.text", "3 amounts")]
    [InlineData("2:x kelp : tide pool", "recipe.text", "There is no paint '2:x kelp : tide pool'")]
    [InlineData("water", "recipe", "'1 water' has no pigment")]
    [InlineData("medium + water", "recipe", "has no pigment")]
    public async Task A_recipe_that_cannot_be_read_is_refused_with_its_text(string text, string field, string description)
    {
        var call = service.Mixing.PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = text } }, cancellationToken: TestContext.Current.CancellationToken);
        if (field.Length == 0)
        {
            await call;
            return;
        }

        await Refused(call, StatusCode.InvalidArgument, field, description);
    }

    [Fact]
    public Task Both_forms_of_a_recipe_at_once_are_refused() => Refused(
        new RecipeInput { Text = "kelp", Parts = { new PartInput { Paint = "kelp", Parts = 1 } } }, "recipe", "Both text and parts");

    [Fact]
    public Task A_part_at_fault_is_named_by_its_place() => Refused(
        new RecipeInput { Parts = { new PartInput { Paint = "kelp", Parts = 1 }, new PartInput { Paint = "tide pool" } } },
        "recipe.parts[1].parts", "0 parts of 'tide pool'");

    [Fact]
    public Task A_part_without_a_paint_is_named_by_its_place() => Refused(
        new RecipeInput { Parts = { new PartInput { Parts = 1 } } }, "recipe.parts[0].paint", "No paint is named");

    [Fact]
    public Task Too_many_paints_are_counted()
    {
        var recipe = new RecipeInput();
        recipe.Parts.Add(Enumerable.Repeat(new PartInput { Paint = "kelp", Parts = 1 }, 25));
        return Refused(recipe, "recipe.parts", "25 paints are named; a recipe may have 24");
    }

    [Fact]
    public Task A_recipe_as_long_as_a_book_is_measured() => Refused(
        new RecipeInput { Text = new string('+', 3000) }, "recipe.text", "3000 characters");

    [Fact]
    public async Task All_faults_are_told_at_once()
    {
        var request = new PredictRequest
        {
            View = new View { Illuminant = "candle", ObserverDegrees = 5, Finish = "glossy?" },
            Recipe = new RecipeInput { Text = "kelq + rope" },
        };
        var refusal = await Assert.ThrowsAsync<RpcException>(() => service.Mixing.PredictAsync(request).ResponseAsync);
        Assert.Equal(
            ["view.illuminant", "view.observer_degrees", "view.finish", "recipe.text", "recipe.text"],
            Violations(refusal).Select(violation => violation.Field));
        Assert.Contains("'candle' is no light that is known; use A, D50, D55, D65, D75, FL2, FL11, LED-B1", refusal.Status.Detail);
        Assert.Contains("5 is neither 2 nor 10", refusal.Status.Detail);
        Assert.Contains("'glossy?' is no finish; use matt, satin or gloss", refusal.Status.Detail);
        Assert.EndsWith("And 2 more.", refusal.Status.Detail);
    }

    /// <summary>Clients in other languages drop trailers of more than 8 KiB, and with them the reason.</summary>
    [Fact]
    public async Task A_refusal_is_never_too_large_for_its_trailers()
    {
        var faulty = "name,hex,opacity\n" + string.Concat(Enumerable.Range(0, 1000).Select(i => $"paint {i} 昆布昆布昆布昆布昆布昆布昆布,#12345,{new string('x', 500)}\n"));
        var many = new RecipeInput();
        many.Parts.Add(Enumerable.Repeat(new PartInput { Paint = new string('昆', 500), Parts = double.NaN }, 24));
        RpcException[] refusals =
        [
            await Assert.ThrowsAsync<RpcException>(() => service.Shelves.ImportShelfAsync(new ImportShelfRequest { Content = ByteString.CopyFromUtf8(faulty) }).ResponseAsync),
            await Assert.ThrowsAsync<RpcException>(() => service.Mixing.PredictAsync(new PredictRequest { Recipe = many }).ResponseAsync),
            await Assert.ThrowsAsync<RpcException>(() => service.Mixing.PredictAsync(new PredictRequest { Shelf = new string('x', 1_000_000) }).ResponseAsync),
            await Assert.ThrowsAsync<RpcException>(() => service.Shelves.ExportShelfAsync(new ExportShelfRequest { Format = new string('y', 1_000_000) }).ResponseAsync),
        ];
        foreach (var refusal in refusals)
        {
            // The message is percent-encoded beyond ASCII: up to three letters for a byte.
            var message = refusal.Status.Detail.Sum(letter => char.IsAscii(letter) ? 1 : 9);
            Assert.InRange(message + refusal.Trailers.Where(entry => entry.IsBinary).Sum(entry => entry.ValueBytes.Length * 4 / 3), 1, 8000);
            Assert.NotEmpty(Violations(refusal));
        }

        Assert.EndsWith("more faults are not listed.", Violations(refusals[0])[^1].Description);
    }

    [Theory]
    [InlineData("", "No colour is given")]
    [InlineData("#12", "'#12' is no colour")]
    [InlineData("#12345", "'#12345' is no colour")]
    [InlineData("#ggg", "'#ggg' is no colour")]
    [InlineData("lab:40,5", "three numbers")]
    [InlineData("lab:40,5,-12,20", "three numbers")]
    [InlineData("lab:40;5;6", "three numbers")]
    [InlineData("lab:NaN,0,0", "NaN is not from 0 to 100")]
    [InlineData("lab:1e999,0,0", "is not from 0 to 100")]
    [InlineData("lab:101,0,0", "101 is not from 0 to 100")]
    [InlineData("lab:50,-300,0", "-300 is not from -200 to 200")]
    public async Task A_target_that_is_no_colour_is_refused_with_its_text(string text, string description)
    {
        var request = new MatchRequest { Target = new ColorInput() };
        if (text.Length > 0)
        {
            request.Target.Text = text;
        }

        await Refused(service.Mixing.MatchAsync(request), StatusCode.InvalidArgument, "target", description);
    }

    [Fact]
    public Task Black_is_a_colour_and_an_absent_number_is_not() => Refused(
        service.Mixing.MatchAsync(new MatchRequest { Target = new ColorInput { Lab = new Lab { L = 0, A = 0 } } }),
        StatusCode.InvalidArgument, "target.lab.b", "It is missing");

    [Theory]
    [InlineData(new double[] { 400, 410 }, new double[] { 0.1 }, "2 wavelengths and 1 reflectances")]
    [InlineData(new double[] { }, new double[] { }, "0 wavelengths")]
    [InlineData(new double[] { 400, 420, 410 }, new double[] { 0.1, 0.1, 0.1 }, "410 nm")]
    [InlineData(new double[] { 500, 510 }, new double[] { 0.1, 0.1 }, "500 to 510 nm")]
    public Task A_spectrum_at_fault_is_refused(double[] wavelengths, double[] factors, string description) => Refused(
        service.Mixing.MatchAsync(new MatchRequest { Target = new ColorInput { Spectrum = new Spectrum { WavelengthNm = { wavelengths }, Reflectance = { factors } } } }),
        StatusCode.InvalidArgument, "target.spectrum", description);

    [Fact]
    public Task A_reflectance_in_percent_is_refused_with_its_band()
    {
        var spectrum = new Spectrum();
        for (var nm = 400; nm <= 700; nm += 10)
        {
            spectrum.WavelengthNm.Add(nm);
            spectrum.Reflectance.Add(nm == 550 ? 45 : 0.45);
        }

        return Refused(service.Mixing.MatchAsync(new MatchRequest { Target = new ColorInput { Spectrum = spectrum } }), StatusCode.InvalidArgument, "target.spectrum", "550 nm is 45");
    }

    [Fact]
    public Task A_shelf_that_is_not_there_is_refused_with_those_that_are() => Refused(
        service.Mixing.PredictAsync(new PredictRequest { Shelf = "attic", Recipe = new RecipeInput { Text = "kelp" } }), StatusCode.NotFound, "shelf", "There is no shelf 'attic'. There are 'home'");

    [Theory]
    [InlineData("a b")]
    [InlineData("../etc")]
    [InlineData("häfen!")]
    [InlineData("0123456789012345678901234567890123456789012345678901234567890123456789")]
    public Task A_shelfs_name_is_checked_before_the_shelf_is_made(string name) => Refused(
        service.Shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = name, Content = ByteString.CopyFromUtf8(Coast.Table) }),
        StatusCode.InvalidArgument, "shelf", "is no name for a shelf");

    [Fact]
    public async Task Every_fault_of_a_table_is_told_with_its_line_and_nothing_is_imported()
    {
        var table = "name,hex,opacity\nkelp,#12345,opaque\nfoam,#eeeeee,cloudy\nkelp,#223344,opaque\n";
        var refusal = await Refused(
            service.Shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = "faulty", Content = ByteString.CopyFromUtf8(table) }),
            StatusCode.InvalidArgument, "content", "line 2");
        Assert.Equal(3, Violations(refusal).Count);
        Assert.Contains("cloudy", Violations(refusal)[1].Description);
        Assert.Contains("line 4", Violations(refusal)[2].Description);
        Assert.DoesNotContain(service.Shelves.ListShelves(new ListShelvesRequest()).Shelves, shelf => shelf.Shelf == "faulty");
    }

    [Fact]
    public Task A_paint_cannot_be_called_water() => Refused(
        service.Shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = "wet", Content = ByteString.CopyFromUtf8("name,hex\nWater,#3344aa\n") }),
        StatusCode.InvalidArgument, "content", "line 2, name: 'Water' means water in every recipe");

    [Fact]
    public Task An_empty_file_is_refused() => Refused(
        service.Shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = "empty" }), StatusCode.InvalidArgument, "content", "");

    [Fact]
    public Task An_unknown_format_is_refused() => Refused(
        service.Shelves.ExportShelfAsync(new ExportShelfRequest { Format = "parchment" }), StatusCode.InvalidArgument, "format", "'parchment' is no form of a table; use csv or xlsx");

    [Fact]
    public Task An_unknown_paint_is_not_found() => Refused(
        service.Shelves.GetPaintAsync(new GetPaintRequest { Paint = "kelq" }), StatusCode.NotFound, "paint", "The nearest: 'kelp'");

    [Fact]
    public Task Water_cannot_be_removed() => Refused(
        service.Shelves.RemovePaintAsync(new RemovePaintRequest { Paint = "water" }), StatusCode.NotFound, "paint", "nothing to remove");

    [Theory]
    [InlineData(1, 6, "steps", "1 is not from 2 to 64")]
    [InlineData(65, 6, "steps", "65 is not from 2 to 64")]
    [InlineData(6, 81, "drops", "81 is not from 1 to 80")]
    [InlineData(6, -1, "drops", "-1 is not from 1 to 80")]
    public Task A_ramp_out_of_bounds_is_refused(int steps, int drops, string field, string description) => Refused(
        service.Mixing.RampAsync(new RampRequest { Through = { Text("kelp"), Text("tide pool") }, Steps = steps, Drops = drops }),
        StatusCode.InvalidArgument, field, description);

    [Fact]
    public Task A_ramp_through_one_paint_is_refused() => Refused(
        service.Mixing.RampAsync(new RampRequest { Through = { Text("kelp") } }), StatusCode.InvalidArgument, "through", "1 paints or recipes are given");

    [Fact]
    public Task A_ramp_from_a_paint_to_itself_is_refused() => Refused(
        service.Mixing.RampAsync(new RampRequest { Through = { Text("kelp"), Text("2 kelp") } }), StatusCode.InvalidArgument, "through", "are the same mixture");

    [Fact]
    public Task A_ramps_end_that_takes_too_many_drops_is_refused() => Refused(
        service.Mixing.RampAsync(new RampRequest { Through = { Text("kelp"), Text("3 tide pool + 4 chalk cliff") } }), StatusCode.InvalidArgument, "through", "takes 7 drops");

    [Fact]
    public Task A_match_of_four_paints_is_refused() => Refused(
        service.Mixing.MatchAsync(new MatchRequest { Target = new ColorInput { Text = "#ccc" }, Paints = 4 }), StatusCode.InvalidArgument, "paints", "4 is not from 1 to 3");

    [Fact]
    public async Task A_match_on_a_shelf_without_paint_is_refused()
    {
        service.Import("washed", "name,hex,kind\nbrine,,medium\n");
        await Refused(
            service.Mixing.MatchAsync(new MatchRequest { Shelf = "washed", Target = new ColorInput { Text = "#ccc" } }),
            StatusCode.InvalidArgument, "shelf", "There is no paint on the shelf 'washed'");
    }

    [Theory]
    [InlineData(-1, 0, 1, 20.0, "medium_parts", "-1 is not from 0 to 100")]
    [InlineData(0, 101, 1, 20.0, "water_parts", "101 is not from 0 to 100")]
    [InlineData(0, 0, 101, 20.0, "coats", "101 is not from 1 to 100")]
    [InlineData(0, 0, 1, 0.0, "film_thickness_um", "0 is not from 1 to 200 micrometres")]
    public Task A_glaze_out_of_bounds_is_refused(double medium, double water, int coats, double film, string field, string description) => Refused(
        service.Mixing.GlazeAsync(new GlazeRequest { Recipe = Text("kelp"), MediumParts = medium, WaterParts = water, Coats = coats, FilmThicknessUm = film, Over = new Surface { Primer = "grey" } }),
        StatusCode.InvalidArgument, field, description);

    [Fact]
    public Task A_glaze_over_nothing_is_refused() => Refused(
        service.Mixing.GlazeAsync(new GlazeRequest { Recipe = Text("kelp") }), StatusCode.InvalidArgument, "over", "Nothing is given that lies beneath");

    [Fact]
    public Task A_glaze_of_water_is_refused() => Refused(
        service.Mixing.GlazeAsync(new GlazeRequest { Recipe = Text("water"), Over = new Surface { Primer = "grey" } }), StatusCode.InvalidArgument, "recipe", "leaves no film");

    [Fact]
    public Task A_layer_at_fault_is_named_by_its_place() => Refused(
        service.Mixing.GlazeAsync(new GlazeRequest
        {
            Recipe = Text("kelp"),
            Over = new Surface { Primer = "grey", Coats = { new Coats { Recipe = Text("kelp") }, new Coats { Recipe = Text("kelp"), WaterParts = -2 } } },
        }),
        StatusCode.InvalidArgument, "over.coats[1].water_parts", "-2");

    [Fact]
    public Task An_unknown_primer_is_refused() => Refused(
        service.Mixing.CoverAsync(new CoverRequest { Recipe = Text("kelp"), Over = "pink" }), StatusCode.InvalidArgument, "over", "'pink' is no primer; use black, grey, white");

    private static RecipeInput Text(string text) => new() { Text = text };

    private static IList<BadRequest.Types.FieldViolation> Violations(RpcException refusal) => refusal.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations;

    private static async Task<RpcException> Refused<T>(AsyncUnaryCall<T> call, StatusCode code, string field, string description)
    {
        var refusal = await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync);
        Assert.Equal(code, refusal.StatusCode);
        Assert.Equal((int)code, refusal.GetRpcStatus()!.Code);
        Assert.Contains(Violations(refusal), violation => violation.Field.StartsWith(field, StringComparison.Ordinal) && violation.Description.Contains(description, StringComparison.Ordinal));
        Assert.Contains(description, refusal.Status.Detail);
        return refusal;
    }

    private Task Refused(RecipeInput recipe, string field, string description) =>
        Refused(service.Mixing.PredictAsync(new PredictRequest { Recipe = recipe }), StatusCode.InvalidArgument, field, description);
}
