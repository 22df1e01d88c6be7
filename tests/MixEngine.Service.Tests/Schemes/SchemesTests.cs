using System.Text;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests;

/// <summary>Schemes as a client sees them.</summary>
public class SchemesTests(TestService service) : IClassFixture<TestService>
{
    private const string Text = """
        name = "two fishers"
        shelf = "home"
        buy-from = "boat"
        primer = "black"
        sprayed = "primer"
        tolerance = 4

        [[figure]]
        name = "fishers"
        count = 2

        [[figure.area]]
        name = "coat"
        paints = ["tarred rope", "kelp", "sea lettuce"]
        steps = 4

        [[figure.area]]
        name = "trousers"
        like = "coat"
        but = "darker"
        steps = 3

        [[figure.area]]
        name = "wet hem"
        role = "glaze"
        paints = "tide pool"
        medium-parts = 6
        over = "coat"
        """;

    private V1.Schemes.SchemesClient Client => new(service.Channel);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_scheme_is_solved_with_progress_areas_summary_and_files()
    {
        var (result, files, progress) = await RunAsync(Text, formats: ["html", "pdf", "png", "xlsx", "csv", "json"]);

        Assert.NotEmpty(progress);
        Assert.Equal(["coat", "trousers", "wet hem"], result.Areas.Select(area => area.Area));
        Assert.Equal(4, result.Areas[0].Steps.Count);
        Assert.Equal("glaze", result.Areas[2].Role);
        Assert.Equal(4, result.Areas[2].Steps[0].Glazed.Count);
        Assert.Equal(2, result.Summary.Figures);
        Assert.Contains(result.Summary.Cautions, caution => caution.About == "spraying");

        Assert.Equal("%PDF-", Encoding.ASCII.GetString(files["cards.pdf"][..5]));
        Assert.Contains("fishers", Encoding.UTF8.GetString(files["cards.html"]), StringComparison.Ordinal);
        Assert.Contains("strips/01-fishers.png", files.Keys);

        // The JSON file is the answer itself.
        var json = JsonParser.Default.Parse<SchemeResult>(Encoding.UTF8.GetString(files["scheme.json"]));
        Assert.Equal(result.Areas, json.Areas);
        Assert.Equal(result.Summary, json.Summary);
    }

    [Fact]
    public async Task A_step_is_what_predict_says_of_it()
    {
        var (result, _, _) = await RunAsync(Text);
        foreach (var step in result.Areas.Where(area => area.Role != "glaze").SelectMany(area => area.Steps))
        {
            var parts = step.Recipe.Parts.Select(part => new PartInput { Paint = part.PaintId, Parts = part.Parts });
            var alone = service.Mixing.Predict(new PredictRequest { Shelf = "home", Recipe = new RecipeInput { Parts = { parts } } }, cancellationToken: Cancel);
            Assert.Equal(alone.Color, step.Color);
            Assert.Equal(alone.ExpectedError, step.ExpectedError);
        }
    }

    [Fact]
    public async Task A_kept_run_is_reproduced_bit_for_bit_even_when_its_shelf_has_changed()
    {
        service.Import("then", Coast.Table);
        var text = Text.Replace("shelf = \"home\"", "shelf = \"then\"", StringComparison.Ordinal);
        var (result, _, _) = await RunAsync(text);
        var run = result.Summary.Run;
        Assert.True(Client.ReplaySchemeRun(new ReplaySchemeRunRequest { Run = run }, cancellationToken: Cancel).Identical);
        Assert.Equal(0, Client.CompareSchemeRun(new CompareSchemeRunRequest { Run = run }, cancellationToken: Cancel).Moved);

        // Kelp is another kelp now: the run stays what it was, and what moved is told.
        service.Import("then", Coast.Table.Replace("#3f4a2b", "#6f8a3b", StringComparison.Ordinal));
        var replayed = Client.ReplaySchemeRun(new ReplaySchemeRunRequest { Run = run }, cancellationToken: Cancel);
        Assert.True(replayed.Identical);
        Assert.Equal(replayed.DigestThen, replayed.DigestNow);
        var moved = Client.CompareSchemeRun(new CompareSchemeRunRequest { Run = run }, cancellationToken: Cancel);
        Assert.True(moved.Moved > 0);
        Assert.Contains(moved.Steps, step => step.Area == "coat" && step.DeltaE00 > 1);

        var kept = Client.GetSchemeRun(new GetSchemeRunRequest { Run = run }, cancellationToken: Cancel);
        Assert.Equal(result, kept.Result);
        Assert.Equal(text, kept.Text);
        Assert.Contains(Client.ListSchemeRuns(new ListSchemeRunsRequest(), cancellationToken: Cancel).Runs, listed => listed.Run == run && listed.Digest == replayed.DigestThen);
    }

    [Fact]
    public async Task From_somebody_elses_shelf_each_step_has_its_loss()
    {
        service.Import("hers", "name,hex,opacity\ncoal,#202020,opaque\nchalk,#f0f0ea,opaque\nmoss,#56702c,opaque\nbark,#5a4030,opaque\n");
        var (result, _, _) = await RunAsync(Text, other: "hers");
        Assert.Equal(result.Areas.Sum(area => area.Steps.Count), result.Summary.OtherShelf.Count);
        Assert.All(result.Summary.OtherShelf, step => Assert.All(step.Second.Parts, part => Assert.Contains(part.Paint, new[] { "coal", "chalk", "moss", "bark", "medium" })));
    }

    [Fact]
    public async Task Two_shelves_are_painted_from_as_one()
    {
        service.Import("lent", "name,hex,opacity\nkelp,#2f5a2b,opaque\nsamphire,#6f8a3b,opaque\n");
        var text = Text.Replace("shelf = \"home\"", "shelf = [\"home\", \"lent\"]", StringComparison.Ordinal).Replace("\"kelp\", \"sea lettuce\"", "\"kelp (lent)\", \"samphire\"", StringComparison.Ordinal);
        var (result, _, _) = await RunAsync(text);
        Assert.Contains(result.Areas[0].Steps.SelectMany(step => step.Recipe.Parts), part => part.PaintId == "lent/kelp");
    }

    [Fact]
    public async Task Faults_of_the_file_and_names_of_no_paint_are_told_with_line_and_key()
    {
        var fault = await Assert.ThrowsAsync<RpcException>(() => RunAsync(Text.Replace("tolerance = 4", "tolerance = 400", StringComparison.Ordinal)));
        Assert.Equal(StatusCode.InvalidArgument, fault.StatusCode);
        Assert.Contains("line 6, tolerance", fault.Status.Detail, StringComparison.Ordinal);

        fault = await Assert.ThrowsAsync<RpcException>(() => RunAsync(Text.Replace("\"kelp\",", "\"kepl\",", StringComparison.Ordinal)));
        Assert.Contains("line 14, figure \"fishers\" / area \"coat\" / paints", fault.Status.Detail, StringComparison.Ordinal);
        Assert.Contains("'kelp'", fault.Status.Detail, StringComparison.Ordinal);

        fault = Assert.Throws<RpcException>(() => Client.CheckScheme(new CheckSchemeRequest { Text = "name = 3" }, cancellationToken: Cancel));
        Assert.Contains("line 1, name", fault.Status.Detail, StringComparison.Ordinal);

        fault = await Assert.ThrowsAsync<RpcException>(() => RunAsync(Text, formats: ["docx"]));
        Assert.Contains("docx", fault.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Mixes_that_were_made_are_kept_with_their_bottles_and_swatch()
    {
        var (result, _, _) = await RunAsync(Text);
        var mix = new MadeMix
        {
            Run = result.Summary.Run, Pot = 1, Swatch = new ColorInput { Text = "lab:30,-5,12" }, Notes = "a little wet still",
            Parts = { new MadePart { Paint = "kelp", Drops = 6, Batch = "L2207" }, new MadePart { Paint = "tarred rope", Drops = 12 } },
        };
        var kept = Client.LogMix(new LogMixRequest { Mix = mix }, cancellationToken: Cancel).Mix;
        Assert.True(kept.Id > 0 && kept.Made.Length > 0);
        Assert.Equal(kept, Client.ListMixes(new ListMixesRequest { Run = result.Summary.Run }, cancellationToken: Cancel).Mixes[0]);
        Assert.Equal(mix.Parts, kept.Parts);

        var fault = Assert.Throws<RpcException>(() => Client.LogMix(new LogMixRequest { Mix = new MadeMix { Run = 999_999, Parts = { new MadePart { Paint = "", Drops = -1 } } } }, cancellationToken: Cancel));
        Assert.Contains("mix.parts[0].drops", fault.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_asked_again_under_its_id_is_kept_once_and_answered_as_before()
    {
        var before = Client.ListSchemeRuns(new ListSchemeRunsRequest(), cancellationToken: Cancel).Runs.Count;
        var (first, _, _) = await RunAsync(Text, id: "lost-answer");
        var (second, files, _) = await RunAsync(Text, formats: ["csv"], id: "lost-answer");
        Assert.Equal(first, second);
        Assert.NotEmpty(files);
        Assert.Equal(before + 1, Client.ListSchemeRuns(new ListSchemeRunsRequest(), cancellationToken: Cancel).Runs.Count);
        var fault = await Assert.ThrowsAsync<RpcException>(() => RunAsync(Text.Replace("tolerance = 4", "tolerance = 5", StringComparison.Ordinal), id: "lost-answer"));
        Assert.Equal(StatusCode.AlreadyExists, fault.StatusCode);
        Assert.Contains("'lost-answer'", fault.Status.Detail, StringComparison.Ordinal);

        var mix = new LogMixRequest { Mix = new MadeMix { Run = first.Summary.Run, Parts = { new MadePart { Paint = "kelp", Drops = 6 } } }, RequestId = "lost-answer" };
        Assert.Equal(Client.LogMix(mix, cancellationToken: Cancel), Client.LogMix(mix, cancellationToken: Cancel));
        Assert.Single(Client.ListMixes(new ListMixesRequest { Run = first.Summary.Run }, cancellationToken: Cancel).Mixes);
        mix.Mix.Notes = "another";
        Assert.Equal(StatusCode.AlreadyExists, Assert.Throws<RpcException>(() => Client.LogMix(mix, cancellationToken: Cancel)).StatusCode);
        mix.RequestId = "no id";
        Assert.Equal(StatusCode.InvalidArgument, Assert.Throws<RpcException>(() => Client.LogMix(mix, cancellationToken: Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_caller_who_goes_away_stops_the_solving()
    {
        service.Import("large", Coast.Large(200));
        var areas = string.Concat(Enumerable.Range(0, 60).Select(i => FormattableString.Invariant($"[[figure.area]]\nname = \"a{i}\"\ntarget = \"lab:{20 + i},{i % 20},{i % 13}\"\n")));
        var before = service.Requests.Count;
        using var cancel = new CancellationTokenSource();
        using (var call = Client.RunScheme(new RunSchemeRequest { Text = $"name = \"many\"\nshelf = \"large\"\n[[figure]]\nname = \"f\"\n{areas}" }, cancellationToken: cancel.Token))
        {
            Assert.True(await call.ResponseStream.MoveNext(Cancel));
            await cancel.CancelAsync();
        }

        for (var waited = 0; service.Requests.Count > before; waited++)
        {
            Assert.True(waited < 800, "The scheme is still being solved.");
            await Task.Delay(25, Cancel);
        }
    }

    [Fact]
    public async Task The_schema_is_served_in_JSON_too()
    {
        var json = await service.Http.GetStringAsync(new Uri("/v1/scheme-schema", UriKind.Relative), Cancel);
        Assert.Contains("json-schema.org", json, StringComparison.Ordinal);
    }

    private async Task<(SchemeResult Result, Dictionary<string, byte[]> Files, List<SchemeProgress> Progress)> RunAsync(string text, string other = "", string[]? formats = null, string id = "")
    {
        service.Import("boat", "name,hex,opacity\nsamphire,#6f8a3b,opaque\nlugworm,#8d4f4a,semi-opaque\n");
        var (result, files, progress) = (new SchemeResult(), new Dictionary<string, byte[]>(), new List<SchemeProgress>());
        using var call = Client.RunScheme(new RunSchemeRequest { Text = text, OtherShelf = other, Formats = { formats ?? [] }, RequestId = id }, cancellationToken: Cancel);
        await foreach (var part in call.ResponseStream.ReadAllAsync(Cancel))
        {
            switch (part.PartCase)
            {
                case RunSchemeResponse.PartOneofCase.Progress:
                    progress.Add(part.Progress);
                    break;
                case RunSchemeResponse.PartOneofCase.Area:
                    result.Areas.Add(part.Area);
                    break;
                case RunSchemeResponse.PartOneofCase.Summary:
                    result.Summary = part.Summary;
                    break;
                case RunSchemeResponse.PartOneofCase.File:
                    files[part.File.Name] = [.. files.GetValueOrDefault(part.File.Name) ?? [], .. part.File.Content];
                    break;
            }
        }

        return (result, files, progress);
    }
}
