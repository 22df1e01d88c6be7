using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>Answers with invented numbers: they show every shape that a page can take, and say nothing of any paint.</summary>
internal static class PrescribedAnswers
{
    public static FakeService.Prescribed All => new()
    {
        Predict = (_, _) => Task.FromResult(Predict),
        Ramp = Ramp,
        Match = MatchOutOfReach,
        Glaze = Glaze,
        Cover = Cover,
        Paints = Paints,
        Paint = Paint,
        Import = Import,
        AddedSwatch = AddedSwatch,
        Swatches = Swatches,
        ImportedSwatches = ImportedSwatches,
        Advice = Advice,
    };

    public static PredictResponse Predict => new()
    {
        Recipe = Mix(("tarred rope", 2), ("kelp", 1)),
        Color = Colour("#3a3122", 20.8, 1.5, 11.2, "very dark, dull yellow"),
        ExpectedError = Doubt(3.1, 6.04, "a rough guide"),
        Remarks = { "The finish of kelp is not stated: it is taken to be as matt as the others, since nothing else is known of it." },
    };

    public static RampResponse Ramp => new()
    {
        Steps =
        {
            new RampStep { Recipe = Mix(("tarred rope", 1)), Color = Colour("#3b2a20", 18.6, 5.4, 9.2, "very dark, dull orange"), ExpectedError = Doubt(2, 4, "a fair guide") },
            new RampStep { Recipe = Mix(("tarred rope", 2), ("kelp", 1)), Color = Colour("#3a3122", 20.8, -0.04, 11.2, "very dark, dull yellow"), ExpectedError = Doubt(3.1, 6.04, "a rough guide"), StepDeltaE00 = 5.12 },
            new RampStep { Recipe = Mix(("kelp", 1)), Color = Colour("#4a4e26", 31.9, -7, 21.9, "dark, dull yellow-green"), ExpectedError = Doubt(2, 4, "a fair guide"), StepDeltaE00 = 9.98, Remarks = { "Six drops allow no step between this one and the last." } },
        },
        LargestDeltaE00 = 9.98,
        SmallestDeltaE00 = 5.12,
        UndividedSteps =
        {
            new RampStep { Recipe = Mix(("tarred rope", 1)) },
            new RampStep { Recipe = Mix(("tarred rope", 0.583), ("kelp", 0.417)) },
            new RampStep { Recipe = Mix(("kelp", 1)) },
        },
    };

    public static MatchResponse MatchOutOfReach => new()
    {
        Target = Colour("#ff00ff", 60.3, 98.2, -60.8, "bright purple"),
        Matches =
        {
            new Match
            {
                Recipe = Mix(("mussel shell", 3), ("buoy red", 2), ("gull white", 1)), Added = { Mix(("mussel shell", 3), ("buoy red", 2), ("gull white", 1)).Parts },
                Color = Colour("#8a3050", 34.2, 39.9, 0.4, "dark red"), DeltaE00 = 31.25, ExpectedError = Doubt(4, 8, "a rough guide"),
                Lights = { Under("D65", 31.25) }, WorstLight = Under("FL11", 33.125),
                DropTooMany = new DropTooMany { PaintId = "gull-white", Paint = "gull white", DeltaE00 = 36.5, Words = "one drop of gull white too many: visibly lighter" },
            },
            new Match
            {
                Recipe = Mix(("buoy red", 1)), Added = { Mix(("buoy red", 1)).Parts }, Color = Colour("#a92e22", 37.6, 48.8, 35.9, "red"), DeltaE00 = 33.3, ExpectedError = Doubt(2, 4, "a fair guide"),
                Lights = { Under("D65", 33.3) }, WorstLight = Under("D65", 33.3),
            },
        },
        Reached = false,
        Reason = "The nearest is far too dull and too red.",
        Undivided = new Match { Recipe = Mix(("mussel shell", 0.52), ("buoy red", 0.48)), DeltaE00 = 31.02 },
        Proven = true,
        PossibleDeltaE00 = 31.25,
        Wanted = new PaintWanted { Color = Colour("#f415f0", 58.2, 94.1, -58.3, "bright magenta"), Words = "A bright magenta paint that is itself more vivid and bluer than the nearest mix.", DeltaE00 = 0.54 },
    };

    public static MatchResponse MatchReached => new()
    {
        Target = Colour("#5a6b3c", 42.8, -12.4, 23.7, "dark, dull yellow-green"),
        Matches =
        {
            new Match
            {
                Recipe = Mix(("kelp", 3), ("sailcloth", 1)), Added = { Mix(("kelp", 3), ("sailcloth", 1)).Parts },
                Color = Colour("#5a6b3d", 42.8, -12.3, 23.2, "dark, dull yellow-green"), DeltaE00 = 0.31, ExpectedError = Doubt(3, 5, "a fair guide"),
            },
        },
        Reached = true,
        Proven = true,
    };

    /// <summary>Added to what is on the palette, under two lights, and stopped before the end.</summary>
    public static MatchResponse MatchStopped => new()
    {
        Target = MatchReached.Target,
        Matches =
        {
            new Match
            {
                Recipe = Mix(("tarred rope", 4), ("sea lettuce", 3)), Added = { Mix(("sea lettuce", 3)).Parts },
                Color = Colour("#57683a", 41.5, -12, 24, "dark, dull yellow-green"), DeltaE00 = 2.5, ExpectedError = Doubt(3, 5, "a fair guide"),
                Lights = { Under("D65", 1.25), Under("A", 2.5) },
            },
            new Match { Recipe = Mix(("tarred rope", 4)), Color = Colour("#3b2a20", 18.6, 5.4, 9.2, "very dark, dull orange"), DeltaE00 = 21, ExpectedError = Doubt(2, 4, "a fair guide") },
        },
        Reached = false,
        Reason = "The nearest is too dark.",
        Proven = false,
        PossibleDeltaE00 = 1.75,
        Remarks = { "Stopped before all of 85000000 recipes were looked at or ruled out: there may be a better one, though none nearer than 1.8 dE00. Ask for fewer paints or drops, or give more time." },
    };

    public static LightDifference Under(string light, double deltaE00) => new() { Light = light, DeltaE00 = deltaE00 };

    public static GlazeResponse Glaze => new()
    {
        Over = Colour("#c9c9c9", 81, 0, 0, "light grey"),
        Recipe = Mix(("tide pool", 1), ("medium", 6)),
        Coats =
        {
            new CoatResult { Coat = 1, Color = Colour("#a9bfc0", 75.9, -7.1, -3.2, "light, dull blue-green"), ExpectedError = Doubt(2, 4.4, "a fair guide"), StepDeltaE00 = 8.45, TotalDeltaE00 = 8.45 },
            new CoatResult { Coat = 2, Color = Colour("#8fb4b7", 70.6, -12.2, -6.1, "light, dull blue-green", inGamut: false), ExpectedError = Doubt(3, 6.1, "a rough guide"), StepDeltaE00 = 6.02, TotalDeltaE00 = 14.2 },
        },
    };

    public static CoverResponse Cover
    {
        get
        {
            var black = new CoverResult { Primer = "black", Coats = 8, CoatsAtBest = 5, CoatsAtWorst = 13 };
            black.Steps.AddRange(Enumerable.Range(1, 8).Select(n => new CoverCoat
            {
                Coat = n,
                Color = Colour("#c09420", 63.1 + n, 8.5, 61.2, "dull yellow"),
                ContrastRatio = 0.4 + (0.0725 * n),
                RemainingDeltaE00 = 20.5 / n,
            }));
            return new CoverResponse
            {
                Recipe = Mix(("buoy yellow", 1)),
                Color = Colour("#efb51d", 77, 12.1, 76, "bright yellow"),
                Primers = { black, new CoverResult { Primer = "grey", CoatsAtBest = 40 }, new CoverResult { Primer = "white", Coats = 1 } },
            };
        }
    }

    public static ListPaintsResponse Paints => new()
    {
        Shelf = "home",
        Paints = { Rope, new Paint { Id = "clear-brine", Name = "clear brine", Kind = "medium", Grade = "none" } },
    };

    public static GetPaintResponse Paint => new()
    {
        Paint = Rope,
        WavelengthNm = { 380, 400 },
        AbsorptionPerUm = { 0.25, 0.2000001 },
        ScatteringPerUm = { 0.05, 0.00000123 },
        Reflectance = { 0.03, 0.031 },
        Evidence = { LetDown, Film },
    };

    public static AddSwatchResponse AddedSwatch => new()
    {
        Fit = LetDown,
        Paints =
        {
            new PaintChange { PaintId = "kelp", Paint = "kelp", GradeBefore = "colour", GradeAfter = "ladder", ErrorBefore = Doubt(8, 14.7, "a guess: make a swatch"), ErrorAfter = Doubt(4, 8.14, "a rough guide") },
            new PaintChange { PaintId = "gull-white", Paint = "gull white", GradeBefore = "ladder", GradeAfter = "ladder", ErrorBefore = Doubt(8, 11, "a rough guide"), ErrorAfter = Doubt(4, 11.4, "a rough guide") },
        },
        Remarks = { "The number of coats is kept; the film's thickness is inferred, since no two painters' coats are alike." },
    };

    public static ListSwatchesResponse Swatches => new() { Swatches = { LetDown, Film, Unused }, Total = 3 };

    public static ImportSwatchesResponse ImportedSwatches => new()
    {
        Added = 2,
        AlreadyThere = 1,
        Paints = { AddedSwatch.Paints },
        Suspects = { Film },
        Remarks = { "Light and observer are not stated for 2 colours: D65, 2 degrees assumed." },
        DryRun = true,
    };

    public static AdviseSwatchResponse Advice => new()
    {
        Advice =
        {
            new SwatchAdvice { Recipe = Mix(("kelp", 1), ("gull white", 4)), Words = "Paint 1 part kelp + 4 parts gull white in a hiding layer, let it dry, and measure it.", BoundNowDeltaE00 = 14.7, BoundAfterDeltaE00 = 5.52 },
            new SwatchAdvice { Recipe = Mix(("kelp", 1), ("soot black", 1)), Words = "Paint 1 part kelp + 1 part soot black in a hiding layer, let it dry, and measure it.", BoundNowDeltaE00 = 14.7, BoundAfterDeltaE00 = 9 },
        },
    };

    private static SwatchFit LetDown => new()
    {
        Swatch = new Swatch { Id = "s1", Recipe = new RecipeInput { Text = "1 kelp + 4 gull white" }, Color = new ColorInput { Text = "#8a9b7c" }, Dosing = "weighed", Source = "photo", Specular = "excluded", Finish = "matt", Date = "2026-11-25", Note = "in shade, at noon" },
        Measured = Colour("#8a9b7c", 61.9, -11.9, 14.3, "dull green"),
        Fitted = Colour("#8d9c7c", 62.5, -11.6, 15.3, "dull green"),
        DeltaE00 = 0.9,
        Surprise = 0.4,
        Suspect = false,
    };

    private static SwatchFit Film => new()
    {
        Swatch = new Swatch { Id = "card 3", Recipe = new RecipeInput { Text = "1 tarred rope" }, Color = new ColorInput { Text = "#503018" }, Backing = new ColorInput { Text = "black" }, Film = "first", ThicknessUm = 37.5, Coats = 2, Dosing = "drops" },
        Measured = Colour("#503018", 23.1, 12, 20.8, "very dark orange"),
        Fitted = Colour("#3b2a20", 18.6, 5.4, 9.2, "very dark, dull orange"),
        DeltaE00 = 9.31,
        Surprise = 7.12,
        Suspect = true,
        Remark = "Entered again as 's7'; counted once.",
    };

    private static SwatchFit Unused => new()
    {
        Swatch = new Swatch { Id = "s9", Recipe = new RecipeInput { Text = "1 old net" }, Color = new ColorInput { Spectrum = new Spectrum() }, Dosing = "drops", Source = "instrument" },
        Measured = Colour("#8a8068", 53.6, 0.8, 14.1, "dull yellow"),
        Remark = "Not used: there is no 'old net' on the shelf any more. It is kept, and used again when that paint is back.",
    };

    public static ImportShelfResponse Import => new()
    {
        Shelf = "home",
        Added = { "tarred rope", "kelp" },
        Changed = { "sea lettuce" },
        Unchanged = { Enumerable.Range(1, 12).Select(n => $"old paint {n}") },
        Remarks = { "Line 3: the column \"shop\" is not known and was ignored." },
        DryRun = true,
    };

    private static Paint Rope => new()
    {
        Id = "tarred-rope",
        Name = "tarred rope",
        Range = "Skerryfast",
        Kind = "paint",
        Opacity = "semi-opaque",
        Finish = "matt",
        Grade = "colour",
        Color = Colour("#3b2a20", 18.6, 5.4, 9.2, "very dark, dull orange"),
        ExpectedError = Doubt(2, 4, "a fair guide"),
        DropsPerMl = 22,
        MlLeft = 0,
        Pigments = { "PBr7", "PBk9" },
        Notes = "Said to settle: \"shake\", then shake again.",
    };

    private static Color Colour(string hex, double l, double a, double b, string words, bool inGamut = true) => new()
    {
        Hex = hex,
        InGamut = inGamut,
        Lab = new Lab { L = l, A = a, B = b },
        Words = words,
        Illuminant = "D65",
        ObserverDegrees = 2,
    };

    private static ExpectedError Doubt(double likely, double bound, string words) => new() { LikelyDeltaE00 = likely, BoundDeltaE00 = bound, Words = words };

    private static Recipe Mix(params (string Paint, double Parts)[] parts)
    {
        double sum = parts.Sum(part => part.Parts);
        var recipe = new Recipe { Text = string.Join(" + ", parts.Select(part => $"{part.Parts} {part.Paint}")) };
        recipe.Text += " (" + string.Join(" + ", parts.Select(part => $"{Math.Round(100 * part.Parts / sum)} %")) + ")";
        recipe.Parts.AddRange(parts.Select(part => new Part { PaintId = part.Paint.Replace(' ', '-'), Paint = part.Paint, Parts = part.Parts, Share = part.Parts / sum }));
        return recipe;
    }
}
