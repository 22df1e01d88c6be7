using Google.Protobuf;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>Shelves, kept by the real client over the socket.</summary>
public sealed class ShelvesTests(TestService service) : IClassFixture<TestService>
{
    [Fact]
    public void An_import_says_what_it_did_and_a_second_one_does_nothing()
    {
        var first = service.Import("first", Coast.Table);
        Assert.Equal("first", first.Shelf);
        Assert.Equal(8, first.Added.Count);
        var second = service.Import("FIRST", Coast.Table);
        Assert.Equal("first", second.Shelf);
        Assert.Equal((0, 0, 8), (second.Added.Count, second.Changed.Count, second.Unchanged.Count));
        var summary = service.Shelves.ListShelves(new ListShelvesRequest()).Shelves.Single(shelf => shelf.Shelf == "first");
        Assert.Equal((8, 1), (summary.Paints, summary.Revision));
    }

    [Fact]
    public void A_changed_paint_is_known_anew_by_the_next_question()
    {
        var before = service.Logs.Entries.Count;
        service.Import("changing", "name,hex\nkelp,#3f4a2b\nfoam,#eeeeee\n");
        Assert.Equal("#3f4a2b", Hex("changing", "kelp"));
        var change = service.Import("changing", "name,hex\nKelp,#556644\n");
        Assert.Equal(["Kelp"], change.Changed);
        Assert.Equal("#556644", Hex("changing", "kelp"));
        Assert.Equal("#eeeeee", Hex("changing", "foam"));

        // Derived: both at first, then the changed one, and never again for a mere question.
        Assert.Equal(
            ["revision 1: 2 of its 2", "revision 2: 1 of its 2"],
            service.Logs.Entries.Skip(before).Where(entry => entry.Message.Contains("of its 2 paints", StringComparison.Ordinal)).Select(entry => entry.Message[22..44]));
    }

    [Fact]
    public void An_import_says_what_had_to_be_bent_and_of_which_paints()
    {
        var answer = service.Import("bent", "name,hex,finish\ntar,#000000,matt\npitch,#000000,matt\n");
        Assert.Contains(answer.Remarks, remark => remark.StartsWith("tar, pitch: ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_dry_run_changes_nothing()
    {
        var request = new ImportShelfRequest { Shelf = "dry", Content = ByteString.CopyFromUtf8(Coast.Table), DryRun = true };
        var answer = service.Shelves.ImportShelf(request);
        Assert.True(answer.DryRun);
        Assert.Equal(8, answer.Added.Count);
        Assert.DoesNotContain(service.Shelves.ListShelves(new ListShelvesRequest()).Shelves, shelf => shelf.Shelf == "dry");
    }

    [Fact]
    public void What_is_exported_is_imported_identically()
    {
        service.Import("out", Coast.Table);
        var export = service.Shelves.ExportShelf(new ExportShelfRequest { Shelf = "out" });
        Assert.Equal("out.csv", export.FileName);
        Assert.Contains("\"rust, old\"", export.Content.ToStringUtf8());
        var again = service.Shelves.ImportShelf(new ImportShelfRequest { Shelf = "out", FileName = export.FileName, Content = export.Content });
        Assert.Equal((0, 0, 8), (again.Added.Count, again.Changed.Count, again.Unchanged.Count));
        service.Shelves.ImportShelf(new ImportShelfRequest { Shelf = "in", FileName = export.FileName, Content = export.Content });
        Assert.Equal(
            service.Shelves.ListPaints(new ListPaintsRequest { Shelf = "out" }).Paints,
            service.Shelves.ListPaints(new ListPaintsRequest { Shelf = "in" }).Paints);
    }

    [Fact]
    public void A_workbook_is_exported_and_imported_identically()
    {
        service.Import("book", Coast.Table);
        var export = service.Shelves.ExportShelf(new ExportShelfRequest { Shelf = "book", Format = "xlsx" });
        Assert.Equal("book.xlsx", export.FileName);
        var again = service.Shelves.ImportShelf(new ImportShelfRequest { Shelf = "book", FileName = export.FileName, Content = export.Content });
        Assert.Equal(8, again.Unchanged.Count);
    }

    [Fact]
    public void Paints_are_listed_as_entered_with_their_colour_and_how_sure_it_is()
    {
        var paints = service.Shelves.ListPaints(new ListPaintsRequest()).Paints;
        var kelp = paints[1];
        Assert.Equal(("kelp", "kelp", "shore line", "paint", "semi-opaque", "satin", "colour"), (kelp.Id, kelp.Name, kelp.Range, kelp.Kind, kelp.Opacity, kelp.Finish, kelp.Grade));
        Assert.Equal("settles; shake, then wait", kelp.Notes);
        Assert.Equal(["PY42", "PBk7"], kelp.Pigments);
        Assert.Equal((22, 0), (kelp.DropsPerMl, kelp.MlLeft));
        Assert.True(kelp.HasMlLeft);
        Assert.Equal("#3f4a2b", kelp.Color.Hex);
        Assert.True(kelp.ExpectedError.BoundDeltaE00 > 0);
        var lettuce = paints[2];
        Assert.False(lettuce.HasDropsPerMl);
        Assert.Equal("", lettuce.Finish);
        Assert.Equal(61, lettuce.Color.Lab.L, 3);
        var medium = paints[^1];
        Assert.Equal(("medium", "none"), (medium.Kind, medium.Grade));
        Assert.Null(medium.Color);
    }

    [Fact]
    public void A_paint_is_shown_with_its_curves()
    {
        var answer = service.Shelves.GetPaint(new GetPaintRequest { Paint = "buoy" });
        Assert.Equal("buoy yellow", answer.Paint.Name);
        Assert.Equal((36, 36, 36, 36), (answer.WavelengthNm.Count, answer.AbsorptionPerUm.Count, answer.ScatteringPerUm.Count, answer.Reflectance.Count));
        Assert.All(answer.AbsorptionPerUm, absorption => Assert.True(absorption >= 0));
    }

    [Fact]
    public void A_medium_is_shown_without_a_colour()
    {
        var answer = service.Shelves.GetPaint(new GetPaintRequest { Paint = "water" });
        Assert.Equal("water", answer.Paint.Kind);
        Assert.Empty(answer.Reflectance);
        Assert.All(answer.AbsorptionPerUm, absorption => Assert.Equal(0, absorption));
    }

    [Fact]
    public void A_removed_paint_is_gone()
    {
        service.Import("less", Coast.Table);
        Assert.Equal("kelp", service.Shelves.RemovePaint(new RemovePaintRequest { Shelf = "less", Paint = "KELP" }).Removed.Name);
        Assert.DoesNotContain(service.Shelves.ListPaints(new ListPaintsRequest { Shelf = "less" }).Paints, paint => paint.Name == "kelp");
    }

    [Fact]
    public void A_bottle_called_medium_takes_the_place_of_the_general_one()
    {
        service.Import("own-medium", "name,hex,kind,drops_per_ml\nMedium,,medium,40\nkelp,#3f4a2b,,\n");
        var recipe = service.Mixing.Predict(new PredictRequest { Shelf = "own-medium", Recipe = new RecipeInput { Text = "kelp + medium" } }).Recipe;
        Assert.Equal(["kelp", "Medium"], recipe.Parts.Select(part => part.Paint));
    }

    [Fact]
    public void Names_of_any_script_and_any_sign_are_kept_and_found()
    {
        service.Import("scripts", "name,hex\nÖlkannen-Grün,#3f4a2b\n昆布,#334422\n30 fathoms,#112233\nred + blue,#441144\n\"say \"\"ahoy\"\"\",#445566\n");
        Assert.Equal("Ölkannen-Grün", service.Shelves.GetPaint(new GetPaintRequest { Shelf = "scripts", Paint = "ölk" }).Paint.Name);
        foreach (var name in new[] { "昆布", "30 fathoms", "red + blue", "say \"ahoy\"" })
        {
            Assert.Equal([name], service.Mixing.Predict(new PredictRequest { Shelf = "scripts", Recipe = new RecipeInput { Text = name } }).Recipe.Parts.Select(part => part.Paint));
        }

        var mixed = service.Mixing.Predict(new PredictRequest { Shelf = "scripts", Recipe = new RecipeInput { Text = "2 30 fathoms + 1.5 \"red + blue\"" } });
        Assert.Equal([("30 fathoms", 2.0), ("red + blue", 1.5)], mixed.Recipe.Parts.Select(part => (part.Paint, part.Parts)));
    }

    private string Hex(string shelf, string paint) => service.Shelves.GetPaint(new GetPaintRequest { Shelf = shelf, Paint = paint }).Paint.Color.Hex;
}
