using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>Ramps in use, glazes backwards, undercoats, varnish, lamps and eyes, asked by the real client over the socket.</summary>
public sealed class LayeringTests(TestService service) : IClassFixture<TestService>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Layering.LayeringClient Layering => new(service.Channel);

    private static RecipeInput Text(string recipe) => new() { Text = recipe };

    private async Task<RampResponse> EvenRamp(int steps, int drops) =>
        await service.Mixing.RampAsync(new RampRequest { Through = { Text("tarred rope"), Text("chalk cliff") }, Steps = steps, Drops = drops }, cancellationToken: Stop);

    [Fact]
    public async Task A_ramp_takes_every_option()
    {
        var answer = await service.Mixing.RampAsync(
            new RampRequest
            {
                Through = { Text("tarred rope"), Text("rust, old"), Text("chalk cliff") },
                Steps = 7, Drops = 24, Difference = "OKLab", TopStep = 0.7, Keep = { 2 },
            }, cancellationToken: Stop);
        Assert.Equal(7, answer.Steps.Count);
        Assert.Contains(answer.Steps, step => step.Recipe.Text == "1 rust, old");
        Assert.Equal(6, answer.Steps.Count(step => step.HasStepSize));
        Assert.True(answer.HasUnevenness);
        Assert.NotEqual(answer.Steps[1].StepDeltaE00, answer.Steps[1].StepSize);

        var found = await service.Mixing.RampAsync(
            new RampRequest { Through = { Text("kelp"), Text("sea lettuce") }, Drops = 30, FewestSteps = true, LargestStep = 6 }, cancellationToken: Stop);
        Assert.All(found.Steps.Skip(1), step => Assert.True(step.StepDeltaE00 <= 6));
    }

    [Fact]
    public async Task An_even_ramp_has_no_fault_and_a_spoilt_one_is_mended()
    {
        var even = await service.Mixing.RampAsync(new RampRequest { Through = { Text("kelp"), Text("sea lettuce") }, Steps = 6, Drops = 40 }, cancellationToken: Stop);
        var request = new AuditRampRequest { Steps = { even.Steps.Select(step => Text(step.Recipe.Text)) }, Drops = 40 };
        var clean = await Layering.AuditRampAsync(request, cancellationToken: Stop);
        Assert.Empty(clean.Faults);
        Assert.Null(clean.Mending);
        Assert.Equal([1, 2, 3, 4, 5, 6], clean.Steps.Select(step => step.Number));
        Assert.Equal(even.Steps.Select(step => step.Color), clean.Steps.Select(step => step.Step.Color));

        // The same step twice: one too few in the middle.
        request.Steps[3] = request.Steps[2];
        var spoilt = await Layering.AuditRampAsync(request, cancellationToken: Stop);
        Assert.Contains(spoilt.Faults, fault => fault.HasStep ? fault.Step is 3 or 4 : fault is { FromStep: 3, ToStep: 4 });
        Assert.All(spoilt.Faults, fault => Assert.NotEqual("", fault.Words));
        Assert.NotNull(spoilt.Mending);
        Assert.Equal(6, spoilt.Mending.Steps.Count);
        Assert.Equal(5, spoilt.Mending.StepDeltaE00.Count);
    }

    [Fact]
    public async Task A_ramp_goes_on_and_gets_a_layer_between()
    {
        var ramp = await service.Mixing.RampAsync(new RampRequest { Through = { Text("tarred rope"), Text("kelp"), Text("sea lettuce") }, Steps = 5, Drops = 12 }, cancellationToken: Stop);
        var steps = ramp.Steps.Select(step => Text(step.Recipe.Text)).ToArray();
        var lighter = await Layering.ExtendRampAsync(new ExtendRampRequest { Steps = { steps } }, cancellationToken: Stop);
        Assert.NotEmpty(lighter.Extensions);
        Assert.All(lighter.Extensions, one => Assert.True(one.Step.Color.Lab.L > ramp.Steps[^1].Color.Lab.L && one.Step.HasStepDeltaE00 && one.Words.Length > 0));

        var white = await Layering.ExtendRampAsync(new ExtendRampRequest { Steps = { steps }, End = "LIGHT", With = { "chalk" } }, cancellationToken: Stop);
        Assert.Equal("chalk cliff", Assert.Single(white.Extensions).WithPaint);

        var none = await Layering.ExtendRampAsync(new ExtendRampRequest { Steps = { steps }, End = "dark", With = { "chalk" } }, cancellationToken: Stop);
        Assert.Empty(none.Extensions);
        Assert.NotEmpty(none.Remarks);

        var between = await Layering.StepBetweenAsync(new StepBetweenRequest { From = Text("sea lettuce"), To = Text("kelp"), Drops = 20 }, cancellationToken: Stop);
        Assert.InRange(between.Between.Color.Lab.L, between.Darker.Lab.L, between.Lighter.Lab.L);
        Assert.Equal(between.FromDarkerDeltaE00, between.ToLighterDeltaE00, 3.0);
        var nothing = await Layering.StepBetweenAsync(new StepBetweenRequest { From = Text("kelp"), To = Text("kelp") }, cancellationToken: Stop);
        Assert.Null(nothing.Between);
        Assert.NotEqual("", nothing.Reason);
    }

    [Fact]
    public async Task A_ramp_is_built_around_a_colour()
    {
        var answer = await Layering.RampAroundAsync(
            new RampAroundRequest { Target = new ColorInput { Text = "#7a3b22" }, HuePath = "warm light, cool shadow" }, cancellationToken: Stop);
        Assert.Equal(5, answer.Ramp.Steps.Count);
        Assert.Equal(answer.Middle.Recipe.Text, answer.Ramp.Steps[answer.MiddleStep - 1].Recipe.Text);
        Assert.NotNull(answer.Shadow);
        Assert.NotNull(answer.Light);
        Assert.InRange(answer.Light.ChromaKept, 0, 2);
    }

    [Fact]
    public async Task A_glaze_is_found_backwards_or_it_is_said_why_not()
    {
        var over = new Surface { Color = new ColorInput { Text = "#c9c9c9" } };
        var made = await service.Mixing.GlazeAsync(new GlazeRequest { Recipe = Text("tide pool"), MediumParts = 6, Coats = 3, Over = over }, cancellationToken: Stop);
        var target = new ColorInput { Lab = made.Coats[^1].Color.Lab };
        var one = await Layering.GlazeToAsync(new GlazeToRequest { Target = target, Over = { over }, Recipes = { Text("tide pool") } }, cancellationToken: Stop);
        Assert.True(one.Reached);
        Assert.Equal("", one.Reason);
        Assert.InRange(one.Glazes[0].DeltaE00, 0, 1);
        Assert.Equal("#c9c9c9", Assert.Single(one.Glazes[0].Layers).Before.Hex);

        // The whole shelf finds the paint.
        var any = await Layering.GlazeToAsync(new GlazeToRequest { Target = target, Over = { over } }, cancellationToken: Stop);
        Assert.Equal("tide pool", any.Glazes[0].Recipe.Parts[0].Paint);

        var dark = new Surface { Recipe = Text("tarred rope") };
        var never = await Layering.GlazeToAsync(new GlazeToRequest { Target = new ColorInput { Text = "#f0f0f0" }, Over = { dark }, Recipes = { Text("tide pool") } }, cancellationToken: Stop);
        Assert.False(never.Reached);
        Assert.Contains("does not lighten", never.Reason);

        // Five steps at once.
        var ramp = await EvenRamp(5, 24);
        var unify = new GlazeToRequest { Target = new ColorInput { Text = "lab:50,-15,-10" }, Recipes = { Text("tide pool") } };
        unify.Over.AddRange(ramp.Steps.Select(step => new Surface { Recipe = Text(step.Recipe.Text) }));
        var unified = await Layering.GlazeToAsync(unify, cancellationToken: Stop);
        Assert.Equal(5, unified.Glazes[0].Layers.Count);
        Assert.True(unified.Glazes[0].Layers[1].HasStepDeltaE00);
    }

    [Fact]
    public async Task The_best_primer_and_an_undercoat_are_named()
    {
        var answer = await Layering.UndercoatAsync(new UndercoatRequest { Recipe = Text("buoy yellow") }, cancellationToken: Stop);
        Assert.Equal(["black", "grey", "white"], answer.Primers.Select(primer => primer.Primer));
        var cover = await service.Mixing.CoverAsync(new CoverRequest { Recipe = Text("buoy yellow") }, cancellationToken: Stop);
        Assert.Equal(cover.Primers.Where(primer => primer.HasCoats).MinBy(primer => primer.Coats)?.Primer ?? "", answer.BestPrimer);
        foreach (var (plan, alone) in answer.Primers.Zip(cover.Primers))
        {
            Assert.Equal(alone.HasCoats, plan.HasCoats);
            Assert.Equal(alone.Coats, plan.Coats);
            Assert.True(plan.Undercoat is null || !plan.HasCoats || plan.Undercoat.Coats + plan.Undercoat.CoatsAbove < plan.Coats);
        }

        Assert.Equal("black", Assert.Single((await Layering.UndercoatAsync(new UndercoatRequest { Recipe = Text("kelp"), Over = "BLACK" }, cancellationToken: Stop)).Primers).Primer);
    }

    [Fact]
    public async Task A_recipe_and_a_ramp_are_shown_in_other_finishes()
    {
        var one = await Layering.FinishAsync(new FinishRequest { Recipes = { Text("tide pool") } }, cancellationToken: Stop);
        Assert.Equal(["matt", "satin", "gloss"], one.Looks.Select(look => look.Name));
        Assert.Equal(one.Looks.Select(look => look.Steps[0].After.Lab.L).OrderDescending(), one.Looks.Select(look => look.Steps[0].After.Lab.L));
        Assert.False(one.Looks[0].HasSmallestDeltaE00);

        var ramp = await EvenRamp(8, 24);
        var matt = Assert.Single((await Layering.FinishAsync(new FinishRequest { Recipes = { ramp.Steps.Reverse().Select(step => Text(step.Recipe.Text)) }, Varnish = "gloss" }, cancellationToken: Stop)).Looks);
        Assert.Equal([8, 7, 6, 5, 4, 3, 2, 1], matt.Steps.Select(step => step.Number));
        Assert.All(matt.Steps.Skip(1), step => Assert.True(step.HasStepBeforeDeltaE00 && step.HasStepDeltaE00));
    }

    [Fact]
    public async Task A_ramp_is_shown_under_lamps_and_a_match_is_judged_there()
    {
        var request = new LightRequest
        {
            Recipes = { Text("kelp"), Text("sea lettuce") },
            Lamps = { new Lamp { Name = "a" }, new Lamp { Name = "desk", WavelengthNm = { 380, 450, 550, 650, 780 }, RelativePower = { 0, 1, 3, 4, 1 } } },
            Target = new ColorInput { Text = "#3f4a2b" },
        };
        var answer = await Layering.LightAsync(request, cancellationToken: Stop);
        Assert.Equal(["A", "desk"], answer.Looks.Select(look => look.Name));
        Assert.Equal(4, answer.Matches.Count);
        Assert.All(answer.Matches, match => Assert.True(match.HasMetamerismIndex));
        Assert.Contains(answer.WorstLamp, new[] { "A", "desk" });
        Assert.NotEmpty(answer.Remarks);

        var usual = await Layering.LightAsync(new LightRequest { Recipes = { Text("kelp") } }, cancellationToken: Stop);
        Assert.Equal(["D65", "A", "LED-B3", "FL11"], usual.Looks.Select(look => look.Name));
        Assert.Equal(0, usual.Looks[0].Steps[0].ShiftDeltaE00, 9);
        Assert.Empty(usual.Matches);
    }

    [Fact]
    public async Task A_ramp_is_shown_to_other_eyes()
    {
        var answer = await Layering.EyesAsync(new EyesRequest { Recipes = { Text("kelp"), Text("rust, old") } }, cancellationToken: Stop);
        Assert.Equal(["protan", "deutan", "tritan"], answer.Looks.Select(look => look.Name));
        Assert.True(answer.Looks[1].Steps[1].StepDeltaE00 < answer.Looks[1].Steps[1].StepBeforeDeltaE00);
        var one = await Layering.EyesAsync(new EyesRequest { Recipes = { Text("kelp") }, Eyes = { new Eye { Kind = "Deutan", Severity = 0.6 } } }, cancellationToken: Stop);
        Assert.Equal("deutan 0.6", Assert.Single(one.Looks).Name);
    }

    [Fact]
    public async Task Faults_are_named_by_their_field()
    {
        async Task Refused(string field, string words, Func<Task> ask)
        {
            var fault = await Assert.ThrowsAsync<RpcException>(ask);
            Assert.Equal(StatusCode.InvalidArgument, fault.StatusCode);
            var violation = Assert.Single(fault.GetRpcStatus()!.GetDetail<Google.Rpc.BadRequest>().FieldViolations);
            Assert.Equal(field, violation.Field);
            Assert.Contains(words, violation.Description);
        }

        RecipeInput kelp = Text("kelp"), lettuce = Text("sea lettuce");
        await Refused("steps", "1 recipes", async () => await Layering.AuditRampAsync(new AuditRampRequest { Steps = { kelp } }, cancellationToken: Stop));
        await Refused("steps[1].text", "kelq", async () => await Layering.AuditRampAsync(new AuditRampRequest { Steps = { kelp, Text("kelq") } }, cancellationToken: Stop));
        await Refused("end", "'top'", async () => await Layering.ExtendRampAsync(new ExtendRampRequest { Steps = { kelp, lettuce }, End = "top" }, cancellationToken: Stop));
        await Refused("hue_path", "'sideways'", async () => await Layering.RampAroundAsync(new RampAroundRequest { Target = new ColorInput { Text = "#5a6b3c" }, HuePath = "sideways" }, cancellationToken: Stop));
        await Refused("lightest_l", "10", async () => await Layering.RampAroundAsync(new RampAroundRequest { Target = new ColorInput { Text = "#5a6b3c" }, LightestL = 10 }, cancellationToken: Stop));
        await Refused("over", "0 layers", async () => await Layering.GlazeToAsync(new GlazeToRequest { Target = new ColorInput { Text = "#5a6b3c" } }, cancellationToken: Stop));
        await Refused("varnish", "'dull'", async () => await Layering.FinishAsync(new FinishRequest { Recipes = { kelp }, Varnish = "dull" }, cancellationToken: Stop));
        await Refused("lamps[0].name", "'sun'", async () => await Layering.LightAsync(new LightRequest { Recipes = { kelp }, Lamps = { new Lamp { Name = "sun" } } }, cancellationToken: Stop));
        await Refused("lamps[0].relative_power", "increase", async () => await Layering.LightAsync(new LightRequest { Recipes = { kelp }, Lamps = { new Lamp { Name = "x", WavelengthNm = { 500, 400 }, RelativePower = { 1, 1 } } } }, cancellationToken: Stop));
        await Refused("eyes[0].kind", "'owl'", async () => await Layering.EyesAsync(new EyesRequest { Recipes = { kelp }, Eyes = { new Eye { Kind = "owl" } } }, cancellationToken: Stop));
        await Refused("difference", "'feel'", async () => await service.Mixing.RampAsync(new RampRequest { Through = { kelp, lettuce }, Difference = "feel" }, cancellationToken: Stop));
        await Refused("keep[0]", "3", async () => await service.Mixing.RampAsync(new RampRequest { Through = { kelp, lettuce }, Keep = { 3 } }, cancellationToken: Stop));
        await Refused("largest_step", "missing", async () => await service.Mixing.RampAsync(new RampRequest { Through = { kelp, lettuce }, FewestSteps = true }, cancellationToken: Stop));
    }
}
