using System.Net;
using System.Text;
using System.Text.Json;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>The same calls as HTTP/1.1 and JSON, as scripts and spreadsheets make them.</summary>
public sealed class JsonTests(TestService service) : IClassFixture<TestService>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/v1/predict", """{"recipe": {"text": "2 tarred rope + 1 kelp"}, "view": {"withReflectance": true}}""", "reflectance")]
    [InlineData("/v1/ramp", """{"through": [{"text": "tarred rope"}, {"text": "kelp"}], "steps": 4}""", "undividedSteps")]
    [InlineData("/v1/match", """{"target": {"text": "#5a6b3c"}, "drops": 3}""", "matches")]
    [InlineData("/v1/glaze", """{"recipe": {"text": "tide pool"}, "mediumParts": 6, "coats": 3, "over": {"color": {"text": "#c9c9c9"}}}""", "coats")]
    [InlineData("/v1/cover", """{"recipe": {"parts": [{"paint": "buoy yellow", "parts": 1}]}, "over": "black"}""", "primers")]
    [InlineData("/v1/ramp:audit", """{"steps": [{"text": "tarred rope"}, {"text": "2 tarred rope + 1 kelp"}, {"text": "kelp"}]}""", "steps")]
    [InlineData("/v1/ramp:extend", """{"steps": [{"text": "tarred rope"}, {"text": "kelp"}], "end": "light"}""", "extensions")]
    [InlineData("/v1/ramp:between", """{"from": {"text": "tarred rope"}, "to": {"text": "kelp"}}""", "between")]
    [InlineData("/v1/ramp:around", """{"target": {"text": "#7a3b22"}}""", "middleStep")]
    [InlineData("/v1/glaze:to", """{"target": {"text": "#5a9ca5"}, "over": [{"color": {"text": "#c9c9c9"}}], "recipes": [{"text": "tide pool"}]}""", "glazes")]
    [InlineData("/v1/cover:undercoat", """{"recipe": {"text": "buoy yellow"}, "over": "black"}""", "primers")]
    [InlineData("/v1/finish", """{"recipes": [{"text": "kelp"}], "varnish": "matt"}""", "looks")]
    [InlineData("/v1/light", """{"recipes": [{"text": "kelp"}], "lamps": [{"name": "A"}]}""", "worstLamp")]
    [InlineData("/v1/eyes", """{"recipes": [{"text": "kelp"}, {"text": "sea lettuce"}], "eyes": [{"kind": "deutan", "severity": 0.6}]}""", "looks")]
    public async Task Every_question_is_answered(string path, string request, string expected)
    {
        var answer = await Post(path, request, HttpStatusCode.OK);
        Assert.True(answer.TryGetProperty(expected, out _), answer.ToString());
    }

    [Fact]
    public async Task Shelves_are_kept_over_json_too()
    {
        var import = await Post("/v1/shelves/json-shelf:import", $$"""{"fileName": "a.csv", "content": "{{Convert.ToBase64String(Encoding.UTF8.GetBytes(Coast.Table))}}"}""", HttpStatusCode.OK);
        Assert.Equal(8, import.GetProperty("added").GetArrayLength());
        Assert.Contains("json-shelf", await service.Http.GetStringAsync("/v1/shelves", Stop));
        var paints = JsonDocument.Parse(await service.Http.GetStringAsync("/v1/shelves/json-shelf/paints?view.illuminant=A", Stop)).RootElement.GetProperty("paints");
        Assert.Equal("A", paints[0].GetProperty("color").GetProperty("illuminant").GetString());
        Assert.Contains("tide pool", await service.Http.GetStringAsync("/v1/shelves/json-shelf/paints/tide-pool", Stop));
        Assert.Contains("tide pool", await service.Http.GetStringAsync("/v1/shelves/json-shelf/paints/Tide%20P", Stop));
        var export = JsonDocument.Parse(await service.Http.GetStringAsync("/v1/shelves/json-shelf:export", Stop)).RootElement;
        Assert.Contains("tide pool", Encoding.UTF8.GetString(export.GetProperty("content").GetBytesFromBase64()));
        Assert.True((await service.Http.DeleteAsync("/v1/shelves/json-shelf/paints/kelp", Stop)).IsSuccessStatusCode);
        Assert.DoesNotContain("\"kelp\"", await service.Http.GetStringAsync("/v1/shelves/json-shelf/paints", Stop));
    }

    [Fact]
    public async Task A_refusal_carries_its_violations()
    {
        var refusal = await Post("/v1/predict", """{"recipe": {"text": "kelq"}}""", HttpStatusCode.BadRequest);
        Assert.Equal(3, refusal.GetProperty("code").GetInt32());
        var details = refusal.GetProperty("details")[0];
        Assert.Equal("type.googleapis.com/google.rpc.BadRequest", details.GetProperty("@type").GetString());
        var violation = details.GetProperty("fieldViolations")[0];
        Assert.Equal("recipe.text", violation.GetProperty("field").GetString());
        Assert.Contains("'kelp'", violation.GetProperty("description").GetString());
    }

    [Fact]
    public async Task What_is_not_there_is_404()
    {
        var refusal = JsonDocument.Parse(await (await service.Http.GetAsync("/v1/shelves/home/paints/kelq", Stop)).Content.ReadAsStringAsync(Stop)).RootElement;
        Assert.Equal(5, refusal.GetProperty("code").GetInt32());
    }

    /// <summary>Case 19: zero is not absence.</summary>
    [Fact]
    public async Task Zeros_are_written_and_read()
    {
        var answer = await Post("/v1/match", """{"target": {"lab": {"l": 0, "a": 0, "b": 0}}, "paints": 1, "drops": 1}""", HttpStatusCode.OK);
        var lab = answer.GetProperty("target").GetProperty("lab");
        Assert.Equal((0, 0, 0), (lab.GetProperty("l").GetDouble(), lab.GetProperty("a").GetDouble(), lab.GetProperty("b").GetDouble()));
        Assert.Equal(JsonValueKind.False, answer.GetProperty("reached").ValueKind);
        Assert.Equal("", (await Post("/v1/match", """{"target": {"text": "#2b2320"}, "paints": 1, "drops": 1}""", HttpStatusCode.OK)).GetProperty("reason").GetString());
        var paints = JsonDocument.Parse(await service.Http.GetStringAsync("/v1/shelves/home/paints", Stop)).RootElement.GetProperty("paints");
        Assert.Equal(0, paints[1].GetProperty("mlLeft").GetDouble());
        Assert.False(paints[2].TryGetProperty("mlLeft", out _));
        Assert.Equal(0, paints[2].GetProperty("pigments").GetArrayLength());
    }

    /// <summary>Case 19: what no double can hold survives, as a name and as a number.</summary>
    [Fact]
    public async Task Sixty_four_bits_survive()
    {
        service.Import("wide", "name,hex\n9007199254740993,#334455\n");
        service.Tamper("UPDATE shelf SET revision = 9007199254740993 WHERE name = 'wide'");
        var answer = JsonDocument.Parse(await service.Http.GetStringAsync("/v1/shelves/wide/paints", Stop)).RootElement;
        Assert.Equal("9007199254740993", answer.GetProperty("revision").GetString());
        Assert.Equal("9007199254740993", answer.GetProperty("paints")[0].GetProperty("id").GetString());
        var one = await service.Http.GetStringAsync("/v1/shelves/wide/paints/9007199254740993", Stop);
        Assert.Contains("\"9007199254740993\"", one);
    }

    /// <summary>Case 19: NaN never leaves, and what comes in as NaN is refused by its field.</summary>
    [Theory]
    [InlineData("""{"recipe": {"parts": [{"paint": "kelp", "parts": "NaN"}]}}""", "NaN parts of 'kelp'")]
    [InlineData("""{"recipe": {"parts": [{"paint": "kelp", "parts": "Infinity"}]}}""", "Infinity parts of 'kelp'")]
    [InlineData("""{"recipe": {"parts": [{"paint": "kelp", "parts": 0}]}}""", "0 parts of 'kelp'")]
    public async Task What_is_no_number_is_refused(string request, string description)
    {
        var refusal = await Post("/v1/predict", request, HttpStatusCode.BadRequest);
        Assert.Equal("recipe.parts[0].parts", refusal.GetProperty("details")[0].GetProperty("fieldViolations")[0].GetProperty("field").GetString());
        Assert.Contains(description, refusal.GetProperty("message").GetString());
    }

    [Theory]
    [InlineData("""{"recipe": """)]
    [InlineData("""{"recipe": 7}""")]
    [InlineData("[]")]
    [InlineData("kelp")]
    [InlineData("""{"steps": 1e99}""")]
    [InlineData("")]
    public async Task What_is_no_request_is_refused_as_json(string request)
    {
        var refusal = await Post("/v1/ramp", request, HttpStatusCode.BadRequest);
        Assert.NotEqual("", refusal.GetProperty("message").GetString());
    }

    [Fact]
    public async Task A_path_that_leads_nowhere_says_so()
    {
        var answer = await service.Http.GetAsync("/v1/shelfs", Stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("/v1/shelfs", await answer.Content.ReadAsStringAsync(Stop));
    }

    private async Task<JsonElement> Post(string path, string request, HttpStatusCode expected)
    {
        using var content = new StringContent(request, Encoding.UTF8, "application/json");
        using var answer = await service.Http.PostAsync(path, content, Stop);
        var text = await answer.Content.ReadAsStringAsync(Stop);
        Assert.True(expected == answer.StatusCode, $"{answer.StatusCode}: {text}");
        Assert.DoesNotContain("NaN\",", text.Replace("\"NaN parts", "", StringComparison.Ordinal));
        return JsonDocument.Parse(text).RootElement;
    }
}
