using Grpc.Core;
using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>What was typed reaches the service as it was meant, and what the service answers reaches the caller whole.</summary>
public sealed class AskedTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task WordsThatWereNotQuotedAreOneRecipeAndOptionsArriveAsTheyAre()
    {
        PredictRequest? asked = null;
        await using FakeService fake = await PredictingAsync((request, _) =>
        {
            asked = request;
            return PrescribedAnswers.Predict;
        });

        Outcome outcome = await _home.RunAsync("predict", "2", "tarred", "rope", "+", "1", "kelp", "--shelf", "coast", "--light", "A", "--observer", "10", "--finish", "gloss", "--server", fake.Address);

        outcome.Ended(0);
        Assert.Equal(
            new PredictRequest
            {
                Shelf = "coast",
                View = new View { Illuminant = "A", ObserverDegrees = 10, Finish = "gloss" },
                Recipe = new RecipeInput { Text = "2 tarred rope + 1 kelp" },
            },
            asked);
    }

    [Fact]
    public async Task JsonWritesZeroAndFalse()
    {
        PredictResponse black = PrescribedAnswers.Predict;
        black.Color = new Color { Lab = new Lab { L = 0, A = 0, B = 0 }, Hex = "#000000", InGamut = false };
        black.Remarks.Clear();
        await using FakeService fake = await PredictingAsync((_, _) => black);

        Outcome outcome = await _home.RunAsync("predict", "ink", "--json", "--server", fake.Address);

        outcome.Ended(0);
        var color = outcome.Json.GetProperty("color");
        Assert.Equal(0, color.GetProperty("lab").GetProperty("l").GetDouble());
        Assert.Equal(0, color.GetProperty("lab").GetProperty("b").GetDouble());
        Assert.False(color.GetProperty("inGamut").GetBoolean());
        Assert.Equal(0, color.GetProperty("observerDegrees").GetInt32());
        Assert.Equal(3.1, outcome.Json.GetProperty("expectedError").GetProperty("likelyDeltaE00").GetDouble());
        Assert.Equal(0, outcome.Json.GetProperty("remarks").GetArrayLength());
        Assert.Single(outcome.Lines);
    }

    [Fact]
    public async Task ARefusalNamesTheOptionAndSaysEachThingOnce()
    {
        await using FakeService fake = await PredictingAsync((_, _) => throw Refused(
            StatusCode.InvalidArgument,
            "Two things must be changed.",
            ("view.illuminant", "\"D66\" is no light that is known here; the nearest is D65."),
            ("recipe.text", "\"klep\" is no paint on shelf home; the nearest are kelp and peat.")));

        Outcome outcome = await _home.RunAsync("predict", "klep", "--light", "D66", "--server", fake.Address);

        outcome.Ended(1);
        Assert.Equal(
            """
            mixengine: Two things must be changed.
                --light: "D66" is no light that is known here; the nearest is D65.
                the recipe: "klep" is no paint on shelf home; the nearest are kelp and peat.

            """,
            outcome.Error);
        Assert.Empty(outcome.Output);
    }

    [Theory]
    [InlineData(StatusCode.NotFound, 1)]
    [InlineData(StatusCode.FailedPrecondition, 1)]
    [InlineData(StatusCode.ResourceExhausted, 1)]
    [InlineData(StatusCode.Internal, 3)]
    [InlineData(StatusCode.Unknown, 3)]
    [InlineData(StatusCode.Unimplemented, 3)]
    public async Task TheExitCodeTellsARefusalFromAServiceThatFailed(StatusCode code, int exitCode)
    {
        await using FakeService fake = await PredictingAsync((_, _) => throw new RpcException(new Status(code, "as it is")));

        Outcome outcome = await _home.RunAsync("predict", "kelp", "--server", fake.Address);

        outcome.Ended(exitCode);
        Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AReachedMatchSaysThatItIsReached()
    {
        await using FakeService fake = await FakeService.StartAsync(_home, PrescribedAnswers.All with { Match = PrescribedAnswers.MatchReached });

        Outcome outcome = await _home.RunAsync("match", "5a6b3c", "--server", fake.Address);

        outcome.Ended(0);
        ExpectedPage.Matches("match-reached.txt", outcome.Output);
    }

    [Theory]
    [InlineData("black", "primer", "black")]
    [InlineData("Gray", "primer", "grey")]
    [InlineData("#c9c9c9", "color", "#c9c9c9")]
    [InlineData("c9c9c9", "color", "c9c9c9")]
    [InlineData("#12", "color", "#12")]
    [InlineData("lab:60,0,0", "color", "lab:60,0,0")]
    [InlineData("1 black", "recipe", "1 black")]
    [InlineData("black + white", "recipe", "black + white")]
    public async Task WhatLiesBeneathIsAPrimerAColourOrARecipe(string over, string kind, string text)
    {
        Surface? asked = null;
        await using FakeService fake = await FakeService.StartAsync(_home, PrescribedAnswers.All with { Glazed = request => asked = request.Over });

        (await _home.RunAsync("glaze", "kelp", "--over", over, "--server", fake.Address)).Ended(0);

        Assert.Equal((kind, text), asked!.BaseCase switch
        {
            Surface.BaseOneofCase.Primer => ("primer", asked.Primer),
            Surface.BaseOneofCase.Color => ("color", asked.Color.Text),
            _ => ("recipe", asked.Recipe.Text),
        });
    }

    [Fact]
    public async Task DecimalsHaveAPointWhateverTheLanguageOfTheMachine()
    {
        _home.Variables["LC_ALL"] = "de_DE.UTF-8";
        await using FakeService fake = await PredictingAsync((_, _) => PrescribedAnswers.Predict);

        Outcome outcome = await _home.RunAsync("predict", "kelp", "--csv", "--server", fake.Address);

        Assert.Equal(["20.8", "1.5", "11.2"], outcome.Ended(0).Csv[1][3..6]);
    }

    private Task<FakeService> PredictingAsync(Func<PredictRequest, ServerCallContext, PredictResponse> answer) =>
        FakeService.StartAsync(_home, new FakeService.Prescribed { Predict = (request, context) => Task.FromResult(answer(request, context)) });

    private static RpcException Refused(StatusCode code, string message, params (string Field, string Description)[] violations)
    {
        var bad = new Google.Rpc.BadRequest();
        bad.FieldViolations.AddRange(violations.Select(violation => new Google.Rpc.BadRequest.Types.FieldViolation { Field = violation.Field, Description = violation.Description }));
        var status = new Google.Rpc.Status { Code = (int)code, Message = message, Details = { Google.Protobuf.WellKnownTypes.Any.Pack(bad) } };
        return status.ToRpcException();
    }
}
