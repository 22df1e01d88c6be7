using System.Globalization;
using System.Net.Sockets;
using System.Text.Json;
using Google.Protobuf;
using Grpc.Net.Client;
using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>Every option of a match, by the real command from the real service.</summary>
public sealed class MatchTests(StockedHome home) : IClassFixture<StockedHome>
{
    private const string Target = "5a6b3c";

    [Fact]
    public async Task PaintsThatMustBeInAreInEveryAnswer()
    {
        JsonElement answer = await AskAsync("--must", "kelp", "--must", "tide");
        Assert.All(answer.GetProperty("matches").EnumerateArray(), match => Assert.Superset(new HashSet<string> { "kelp", "tide pool" }, Paints(match)));
    }

    [Fact]
    public async Task PaintsToBeLeftOutAreInNone()
    {
        string[] taken = [.. Paints((await AskAsync()).GetProperty("matches")[0])];
        JsonElement answer = await AskAsync([.. taken.SelectMany(paint => new[] { "--without", paint })]);
        Assert.All(answer.GetProperty("matches").EnumerateArray(), match => Assert.Empty(Paints(match).Intersect(taken)));
    }

    [Fact]
    public async Task WhatIsOnThePaletteStaysAndThePageSaysWhatToAdd()
    {
        JsonElement match = (await AskAsync("--base", "4 tarred rope + 2 kelp", "--drops", "5")).GetProperty("matches")[0];
        double Drops(string of, string paint) => match.GetProperty(of).ValueKind == JsonValueKind.Object
            ? Sum(match.GetProperty(of).GetProperty("parts"), paint)
            : Sum(match.GetProperty(of), paint);
        Assert.Equal(4 + Drops("added", "tarred rope"), Drops("recipe", "tarred rope"));
        Assert.Equal(2 + Drops("added", "kelp"), Drops("recipe", "kelp"));
        Assert.InRange(match.GetProperty("added").EnumerateArray().Sum(part => part.GetProperty("parts").GetDouble()), 1, 5);

        Outcome page = await home.RunAsync("match", Target, "--base", "4 tarred rope + 2 kelp", "--drops", "5");
        Assert.Contains("\n  Add ", page.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SeveralLampsMakeTheWorstOfThemSmaller()
    {
        string[] lamps = ["--lamp", "D65", "--lamp", "A", "--lamp", "FL11"];
        double both = Difference(await AskAsync([.. lamps, "--tolerance", "0"]));
        string daylight = (await AskAsync("--tolerance", "0")).GetProperty("matches")[0].GetProperty("recipe").GetProperty("text").GetString()!;
        JsonElement there = (await home.RunAsync("light", daylight, "--target", Target, "--lamp", "D65", "--lamp", "A", "--lamp", "FL11", "--json")).Ended(0).Json;
        Assert.True(both <= there.GetProperty("matches").EnumerateArray().Max(match => match.GetProperty("deltaE00").GetDouble()) + 1e-6);
    }

    [Fact]
    public async Task LampsWithWeightsCountByThem()
    {
        JsonElement match = (await AskAsync("--lamp", "D65:3", "--lamp", "A:1")).GetProperty("matches")[0];
        double[] each = [.. match.GetProperty("lights").EnumerateArray().Select(light => light.GetProperty("deltaE00").GetDouble())];
        Assert.Equal((0.75 * each[0]) + (0.25 * each[1]), match.GetProperty("deltaE00").GetDouble(), 6);
    }

    [Fact]
    public async Task AMeasuredLampIsReadFromItsFile()
    {
        string lamp = home.Home.Write("attic.csv", "nm,power\n380,1\n730,1\n");
        JsonElement match = (await AskAsync("--lamp", lamp, "--lamp", "A")).GetProperty("matches")[0];
        Assert.Equal(["attic", "A"], match.GetProperty("lights").EnumerateArray().Select(light => light.GetProperty("light").GetString()));
    }

    [Fact]
    public async Task AMeasuredSurfaceIsMatchedInPlaceOfAColour()
    {
        JsonElement made = (await home.RunAsync("predict", "2 kelp + 1 sailcloth", "--reflectance", "--json")).Ended(0).Json.GetProperty("reflectance");
        IEnumerable<string> lines = made.GetProperty("wavelengthNm").EnumerateArray().Zip(made.GetProperty("reflectance").EnumerateArray(), (nm, r) => $"{nm.GetRawText()},{r.GetRawText()}");
        string file = home.Home.Write("hem.csv", "nm,reflectance\n" + string.Join('\n', lines));

        JsonElement answer = (await home.RunAsync("match", "--spectrum", file, "--tolerance", "0.01", "--json")).Ended(0).Json;

        Assert.Equal(["kelp", "sailcloth"], Paints(answer.GetProperty("matches")[0]).Order());
        Assert.InRange(Difference(answer), 0, 0.01);
    }

    [Fact]
    public async Task MediumComesInWhereItIsAllowedAndMust()
    {
        JsonElement answer = await AskAsync("--medium", "--must", "medium");
        Assert.All(answer.GetProperty("matches").EnumerateArray(), match => Assert.Contains("medium", Paints(match)));
        Outcome refused = await home.RunAsync("match", Target, "--must", "medium");
        Assert.Contains("--must: 'medium' is a medium", refused.Ended(1).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ACoarserEyeGetsNoMorePaintsAndAnExactOneNoLargerDifference()
    {
        JsonElement coarse = await AskAsync("--tolerance", "8");
        JsonElement exact = await AskAsync("--tolerance", "0");
        Assert.True(Paints(coarse.GetProperty("matches")[0]).Count <= Paints(exact.GetProperty("matches")[0]).Count);
        Assert.True(Difference(exact) <= Difference(coarse));
    }

    [Theory]
    [InlineData("--answers", 2)]
    [InlineData("--paints", 1)]
    [InlineData("--drops", 3)]
    public async Task NoMoreIsAnsweredThanWasAsked(string option, int most)
    {
        JsonElement answer = await AskAsync(option, most.ToString(CultureInfo.InvariantCulture));
        JsonElement[] matches = [.. answer.GetProperty("matches").EnumerateArray()];
        Assert.InRange(option == "--answers" ? matches.Length : option == "--paints" ? matches.Max(match => Paints(match).Count) : matches.Max(match => (int)Sum(match.GetProperty("added"))), 1, most);
    }

    [Fact]
    public async Task WhatTheCommandAnswersIsWhatTheCallAnswers()
    {
        Outcome outcome = await home.RunAsync("match", Target, "--must", "kelp", "--without", "peat", "--base", "2 tarred rope", "--drops", "9", "--lamp", "D65:2", "--lamp", "A",
            "--finish", "matt", "--tolerance", "1", "--answers", "3", "--json");

        MatchResponse answer = JsonParser.Default.Parse<MatchResponse>(outcome.Output);
        using var channel = GrpcChannel.ForAddress("http://localhost", new GrpcChannelOptions
        {
            HttpHandler = new SocketsHttpHandler
            {
                ConnectCallback = async (_, cancel) =>
                {
                    var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                    await socket.ConnectAsync(new UnixDomainSocketEndPoint(home.Home.Socket), cancel);
                    return new NetworkStream(socket, ownsSocket: true);
                },
            },
        });
        MatchResponse called = await new Mixing.MixingClient(channel).MatchAsync(
            new MatchRequest
            {
                Shelf = "home", Target = new ColorInput { Text = Target }, View = new View { Finish = "matt" }, Must = { "kelp" }, MustNot = { "peat" },
                Base = new RecipeInput { Text = "2 tarred rope" }, Drops = 9, Lights = { new MatchLight { Name = "D65", Weight = 2 }, new MatchLight { Name = "A" } },
                LightRule = "weighted", Tolerance = 1, Answers = 3,
            },
            cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(called, answer);
    }

    [Theory]
    [InlineData("--must: There is no paint 'klep'", "--must", "klep")]
    [InlineData("--without: 'kelp' must be in the recipe and must not", "--must", "kelp", "--without", "kelp")]
    [InlineData("--base: ", "--base", "two kelp")]
    [InlineData("--lamp: 'X9' is no light", "--lamp", "X9")]
    [InlineData("--lamp: 0 is no weight", "--lamp", "A:0")]
    [InlineData("--tolerance: 101 is not from 0 to 100", "--tolerance", "101")]
    [InlineData("--tolerance: \"fine\" cannot be used", "--tolerance", "fine")]
    [InlineData("--answers: 101 is not from 1 to 100", "--answers", "101")]
    [InlineData("--spectrum stands in place of a colour", "--spectrum", "hem.csv")]
    public async Task WhatCannotBeIsRefusedByTheNameOfItsOption(string said, params string[] options)
    {
        Outcome outcome = await home.RunAsync(["match", Target, .. options]);
        Assert.Contains(said, outcome.Ended(1).Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Output);
    }

    private static HashSet<string> Paints(JsonElement match) =>
        [.. match.GetProperty("recipe").GetProperty("parts").EnumerateArray().Select(part => part.GetProperty("paint").GetString()!)];

    private static double Difference(JsonElement answer) => answer.GetProperty("matches")[0].GetProperty("deltaE00").GetDouble();

    private static double Sum(JsonElement parts, string? paint = null) =>
        parts.EnumerateArray().Where(part => paint is null || part.GetProperty("paint").GetString() == paint).Sum(part => part.GetProperty("parts").GetDouble());

    // Reached or not is for other tests.
    private async Task<JsonElement> AskAsync(params string[] options)
    {
        Outcome outcome = await home.RunAsync(["match", Target, "--json", .. options]);
        return outcome.Ended(outcome.ExitCode == 2 ? 2 : 0).Json;
    }
}
