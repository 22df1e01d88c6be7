using System.Net;
using System.Net.Http.Json;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>Many cells in one call: each has its own answer, and they are those of the single calls.</summary>
public sealed class SheetTests(TestService service) : IClassFixture<TestService>
{
    private Sheet.SheetClient Sheets => new(service.Channel);

    [Fact]
    public void EachQuestionHasTheAnswerOfItsOwnCall()
    {
        var predict = new PredictRequest { Recipe = new RecipeInput { Text = "2 tarred rope + 1 kelp" } };
        var ramp = new RampRequest { Through = { new RecipeInput { Text = "tarred rope" }, new RecipeInput { Text = "kelp" } }, Steps = 3 };
        var match = new MatchRequest { Target = new ColorInput { Text = "#5a6b3c" }, Paints = 2, Drops = 4 };
        var glaze = new GlazeRequest { Recipe = new RecipeInput { Text = "tide pool" }, MediumParts = 6, Coats = 2, Over = new Surface { Primer = "white" } };

        var answers = Ask(
            new CellQuestion { Key = "p", Predict = predict }, new CellQuestion { Key = "r", Ramp = ramp },
            new CellQuestion { Key = "m", Match = match }, new CellQuestion { Key = "g", Glaze = glaze });

        Assert.Equal(["p", "r", "m", "g"], answers.Select(answer => answer.Key));
        Assert.Equal(service.Mixing.Predict(predict), answers[0].Predict);
        Assert.Equal(service.Mixing.Ramp(ramp), answers[1].Ramp);
        Assert.Equal(service.Mixing.Match(match), answers[2].Match);
        Assert.Equal(service.Mixing.Glaze(glaze), answers[3].Glaze);
    }

    [Theory]
    [InlineData(50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425)] // Sharma, Wu, Dalal 2005, table 1, pair 1
    [InlineData(2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514, 0.9082)] // pair 34
    public void DifferencesAreThePublishedOnes(double l1, double a1, double b1, double l2, double a2, double b2, double published)
    {
        var question = new DifferenceRequest
        {
            First = new ColorInput { Lab = new Lab { L = l1, A = a1, B = b1 } },
            Second = new ColorInput { Lab = new Lab { L = l2, A = a2, B = b2 } },
        };
        Assert.Equal(published, Ask(new CellQuestion { Difference = question })[0].Difference.DeltaE00, 4);
    }

    [Fact]
    public void AColourIsDescribedAsItIsAndUnderAnotherLight()
    {
        var asked = new ColorInput { Text = "#c03020" };
        var answers = Ask(
            new CellQuestion { Describe = new DescribeRequest { Color = asked } },
            new CellQuestion { Describe = new DescribeRequest { Color = asked, View = new View { Illuminant = "A" } } });

        Assert.Equal("#c03020", answers[0].Describe.Color.Hex);
        Assert.Contains("red", answers[0].Describe.Color.Words);
        Assert.Equal("A", answers[1].Describe.Color.Illuminant);
        Assert.NotEqual(answers[0].Describe.Color.Lab, answers[1].Describe.Color.Lab);
    }

    [Fact]
    public void AFaultIsThatOfItsQuestionAlone()
    {
        var answers = Ask(
            new CellQuestion { Key = "no paint", Predict = new PredictRequest { Recipe = new RecipeInput { Text = "kelpp" } } },
            new CellQuestion { Key = "right", Predict = new PredictRequest { Recipe = new RecipeInput { Text = "kelp" } } },
            new CellQuestion { Key = "no colour", Describe = new DescribeRequest { Color = new ColorInput { Text = "#12" } } },
            new CellQuestion { Key = "no shelf", Predict = new PredictRequest { Shelf = "nowhere", Recipe = new RecipeInput { Text = "kelp" } } },
            new CellQuestion { Key = "nothing" });

        Assert.Equal((int)StatusCode.InvalidArgument, answers[0].Error.Code);
        Assert.Contains("'kelpp'", answers[0].Error.Message);
        Assert.Equal(CellAnswer.AnswerOneofCase.Predict, answers[1].AnswerCase);
        Assert.Contains("'#12'", answers[2].Error.Message);
        Assert.Equal((int)StatusCode.NotFound, answers[3].Error.Code);
        Assert.Contains("Nothing is asked", answers[4].Error.Message);
    }

    [Fact]
    public void TooManyQuestionsAreRefusedByTheirNumberAndTheLimit()
    {
        var fault = Assert.Throws<RpcException>(() => Ask([.. Enumerable.Repeat(new CellQuestion(), 5001)]));
        Assert.Equal(StatusCode.InvalidArgument, fault.StatusCode);
        Assert.Contains("5001", fault.Status.Detail);
        Assert.Contains("5000", fault.Status.Detail);
    }

    [Fact]
    public void ALongKeyIsRefused()
    {
        var fault = Assert.Throws<RpcException>(() => Ask(new CellQuestion { Key = new string('k', 201) }));
        Assert.Contains("questions[0].key", fault.Status.Detail);
    }

    [Fact]
    public async Task ItIsJsonToo()
    {
        var response = await service.Http.PostAsJsonAsync("/v1/sheet:answer", new
        {
            questions = new object[]
            {
                new { key = "one", predict = new { recipe = new { text = "kelp" } } },
                new { key = "two", predict = new { recipe = new { text = "kelpp" } } },
            },
        });
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, text);
        Assert.Contains("\"hex\":", text);
        Assert.Contains("fieldViolations", text);
    }

    private IReadOnlyList<CellAnswer> Ask(params CellQuestion[] questions) => Sheets.AnswerCells(new AnswerCellsRequest { Questions = { questions } }).Answers;
}
