using System.Net;
using System.Text;
using System.Text.Json;
using CsCheck;

namespace MixEngine.Service.Tests.Json;

/// <summary>What is wrong with a JSON request is told by field, line and value.</summary>
public sealed class JsonRequestTests(TestService service) : IClassFixture<TestService>
{
    private const string Glaze = """
        {"shelf": "home", "view": {"observerDegrees": 10, "withReflectance": true}, "recipe": {"parts": [{"paint": "kelp", "parts": 2}]},
         "mediumParts": 6.5, "coats": 3, "over": {"color": {"lab": {"l": 50, "a": 0, "b": -1e0}}}, "film_thickness_um": 20}
        """;

    [Theory]
    [InlineData("""{"recepie": {"text": "kelp"}}""", "recepie", "There is no field 'recepie' here. The nearest: 'recipe'.")]
    [InlineData("""{"recipe": {"txt": "kelp"}}""", "recipe.txt", "The nearest: 'text'")]
    [InlineData("""{"recipe": {"parts": [{"paint": "kelp", "drops": 2}]}}""", "recipe.parts[0].drops", "There are paint, parts.")]
    [InlineData("""{"recipe": 7}""", "recipe", "7 stands where an object is needed")]
    [InlineData("""{"recipe": {"text": ["kelp"]}}""", "recipe.text", "[\"kelp\"] stands where a text is needed")]
    [InlineData("""{"recipe": {"parts": {"paint": "kelp"}}}""", "recipe.parts", "stands where a list is needed")]
    [InlineData("""{"recipe": {"parts": [{"paint": "kelp", "parts": "two"}]}}""", "recipe.parts[0].parts", "\"two\" stands where a number is needed")]
    [InlineData("""{"view": {"observerDegrees": 2.5}}""", "view.observer_degrees", "2.5 stands where a whole number is needed")]
    [InlineData("""{"view": {"observerDegrees": 99999999999}}""", "view.observer_degrees", "99999999999 stands where a whole number is needed")]
    [InlineData("""{"view": {"withReflectance": "yes"}}""", "view.with_reflectance", "\"yes\" stands where true or false is needed")]
    [InlineData("[]", "body", "[] stands where an object is needed")]
    [InlineData("{\"shelf\": \"home\",\n\"recipe\": {\"text\" \"kelp\"}}", "body", "It is not JSON from line 2, byte 19 on")]
    [InlineData("", "body", "It is not JSON from line 1, byte 1 on")]
    public async Task A_request_at_fault_is_refused_by_field_and_value(string request, string field, string description) =>
        AssertRefused(await PostAsync("/v1/predict", request), field, description);

    [Fact]
    public async Task Two_of_the_alternatives_are_refused() => AssertRefused(
        await PostAsync("/v1/match", """{"target": {"text": "#ccc", "lab": {"l": 1, "a": 0, "b": 0}}}"""), "target.lab", "text is given too; give one of them");

    [Theory]
    [InlineData("view.observer_degrees=x", "view.observer_degrees", "'x' stands where a whole number is needed")]
    [InlineData("view.lamp=A", "view.lamp", "There is no field 'lamp' here")]
    [InlineData("paint.x.y=A", "paint.x.y", "There is no field 'paint' here")]
    public async Task A_query_at_fault_is_refused_by_name_and_value(string query, string field, string description) =>
        AssertRefused(await AnswerOfAsync(await service.Http.GetAsync("/v1/shelves/home/paints?" + query)), field, description);

    [Theory]
    [InlineData("view.observer_degrees=10&view.illuminant=D50")]
    [InlineData("view.observerDegrees=10")]
    public async Task A_query_may_name_fields_in_either_spelling(string query) =>
        Assert.Equal(HttpStatusCode.OK, (await service.Http.GetAsync("/v1/shelves/home/paints?" + query)).StatusCode);

    [Fact]
    public async Task A_body_may_name_fields_in_either_spelling_and_say_null_for_nothing()
    {
        Assert.Equal(HttpStatusCode.OK, (await PostAsync("/v1/glaze", Glaze)).Status);
        Assert.Equal(HttpStatusCode.OK, (await PostAsync("/v1/predict", """{"recipe": {"text": "kelp"}, "view": null}""")).Status);
    }

    [Fact]
    public async Task Something_other_than_json_is_refused()
    {
        using var answer = await service.Http.PostAsync("/v1/predict", new StringContent("""{"recipe": {"text": "kelp"}}""", Encoding.UTF8, "text/plain"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("text/plain", await answer.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task A_page_that_had_its_own_name_resolved_to_this_machine_gets_nothing()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/shelves") { Headers = { Host = "pages.example" } };
        using var answer = await service.Http.SendAsync(request);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.DoesNotContain("home", await answer.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task Whatever_is_sent_the_answer_is_json_and_never_a_fault_of_the_service()
    {
        // A request with a few of its characters dropped, doubled or replaced.
        var edit = Gen.Select(Gen.Int[0, Glaze.Length - 1], Gen.Int[0, 3], Gen.OneOf([.. "{}[]\",:0123456789.-+eEnatrul \\é".Select(c => Gen.Const(c))]));
        await edit.Array[1, 4].SampleAsync(
            async edits =>
            {
                var text = new StringBuilder(Glaze);
                foreach (var (place, kind, character) in edits.Where(edit => edit.Item1 < text.Length))
                {
                    _ = kind switch
                    {
                        0 => text.Remove(place, 1),
                        1 => text.Insert(place, character),
                        2 => text.Remove(place, Math.Min(10, text.Length - place)),
                        _ => text.Replace(text[place], character, place, 1),
                    };
                }

                var (status, _) = await PostAsync("/v1/glaze", text.ToString());
                return status is HttpStatusCode.OK or HttpStatusCode.BadRequest or HttpStatusCode.NotFound;
            },
            iter: 400,
            threads: 2);
    }

    private static void AssertRefused((HttpStatusCode Status, JsonElement Json) answer, string field, string description)
    {
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        var violations = answer.Json.GetProperty("details")[0].GetProperty("fieldViolations").EnumerateArray();
        var violation = violations.First(violation => violation.GetProperty("field").GetString() == field);
        Assert.Contains(description, violation.GetProperty("description").GetString());
    }

    private static async Task<(HttpStatusCode Status, JsonElement Json)> AnswerOfAsync(HttpResponseMessage answer)
    {
        using (answer)
        {
            return (answer.StatusCode, JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement);
        }
    }

    private async Task<(HttpStatusCode Status, JsonElement Json)> PostAsync(string path, string request) =>
        await AnswerOfAsync(await service.Http.PostAsync(path, new StringContent(request, Encoding.UTF8, "application/json")));
}
