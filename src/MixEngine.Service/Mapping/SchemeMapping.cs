using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>Schemes as answered.</summary>
internal static class SchemeMapping
{
    public static V1.SchemeResult Write(SchemePlan plan, SchemeComparison? elsewhere, IEnumerable<V1.ShelfState> shelves, string engineVersion) => new()
    {
        Summary = new V1.SchemeSummary
        {
            Name = plan.Scheme.Name,
            EngineVersion = engineVersion,
            Shelves = { shelves },
            Figures = plan.Scheme.Figures.Sum(figure => figure.Count),
            Areas = plan.Areas.Count,
            NotReached = { plan.Areas.Where(area => !area.Reached).Select(area => area.Key) },
            Pots = { plan.Mixes.Select(Write) },
            Bottles = { plan.Bottles.Select(Write) },
            NotNeeded = { plan.NotNeeded.Select(paint => paint.Name) },
            TradeOff = { plan.Palette.TradeOff.Select(point => new V1.TradeOffPoint { Bottles = point.Bottles, WorstDeltaE00 = point.WorstDeltaE00, Proven = point.Proven }) },
            ToBuy = { plan.ToBuy.Select(next => new V1.PaintToBuy { Paint = next.Paint.Name, Improved = next.Improved, Reached = next.Reached, GainDeltaE00 = next.Gain, HelpsMostAt = next.Best }) },
            Cautions = { plan.Cautions.Append(new Caution("always", Caution.Deferring)).Select(caution => new V1.SchemeCaution { About = caution.About, Words = caution.Words }) },
            Remarks = { plan.Remarks },
            FewestBottles = plan.Palette.FewestPossible,
            OtherShelf = { elsewhere?.Steps.Select(Write) ?? [] },
        },
        Areas = { plan.Areas.Select(area => Write(plan, area)) },
    };

    public static V1.ComparedStep Write(ComparedStep step) => new()
    {
        Figure = step.Area.Figure.Name,
        Area = step.Area.Area.Name,
        Step = step.First.Name,
        First = RecipeMapping.Write(step.First.Recipe),
        Second = RecipeMapping.Write(step.Second.Recipe),
        FirstColor = ColorMapping.Write(step.First.Appearance),
        SecondColor = ColorMapping.Write(step.Second.Appearance),
        DeltaE00 = step.DeltaE00,
        Words = step.Words,
    };

    private static V1.SchemeArea Write(SchemePlan plan, AreaPlan area)
    {
        var message = new V1.SchemeArea
        {
            Figure = area.Figure.Name,
            Count = area.Figure.Count,
            Area = area.Area.Name,
            Role = area.Area.Role.ToString().ToLowerInvariant(),
            SameAs = area.SameAs ?? "",
            Steps = { area.Layers.Select(layer => Write(plan, layer)) },
            Reached = area.Reached,
            Remarks = { area.Remarks },
        };
        if (area.WorstDeltaE00 is { } worst)
        {
            message.WorstDeltaE00 = worst;
        }

        return message;
    }

    private static V1.SchemeStep Write(SchemePlan plan, LayerPlan layer)
    {
        var message = new V1.SchemeStep
        {
            Name = layer.Name,
            Where = layer.Where,
            Make = { layer.Blend.Parts.Select(part => Write(plan, part)) },
            Recipe = RecipeMapping.Write(layer.Recipe),
            Coats = layer.Coats,
            Color = ColorMapping.Write(layer.Appearance),
            ExpectedError = ColorMapping.Write(layer.ExpectedError),
            Glazed = { layer.Glazed.Select(ColorMapping.Write) },
            Remarks = { layer.Remarks },
        };
        if (layer.TargetDeltaE00 is { } target)
        {
            message.TargetDeltaE00 = target;
        }

        if (layer.StepDeltaE00 is { } step)
        {
            message.StepDeltaE00 = step;
        }

        return message;
    }

    private static V1.BlendPart Write(SchemePlan plan, BlendPart part) => plan.PotOf(part.Pot) is { } pot
        ? new V1.BlendPart { Parts = part.Parts, Pot = pot.Number }
        : new V1.BlendPart { Parts = part.Parts, Paint = part.Pot.Parts[0].Paint.Name };

    private static V1.SchemePot Write(SchemeMix mix) => new()
    {
        Pot = mix.Number,
        Recipe = RecipeMapping.Write(mix.Pot.Recipe),
        Drops = RecipeMapping.Write(mix.Pot.Scaled),
        NeededMl = mix.Pot.NeededMl,
        Ml = mix.Pot.Ml,
        RoundingDeltaE00 = mix.Pot.RoundingDeltaE00,
        Warning = mix.Pot.Warning ?? "",
        Uses = { mix.Uses.Select(use => $"{use.Area.Key} / {use.Layer.Name}") },
    };

    private static V1.SchemeBottle Write(BottleUse use)
    {
        var message = new V1.SchemeBottle
        {
            PaintId = use.Paint.Id,
            Paint = use.Paint.Name,
            Uses = use.Uses,
            Drops = use.Drops,
            Ml = use.Ml,
            OnTable = use.OnTable,
            WithoutAt = use.Without?.Demand ?? "",
            CouldGo = use.Without?.CouldGo ?? false,
            Remarks = { use.Remarks },
            Kind = Words.Kind.For(use.Paint.Kind),
        };
        if (use.Without?.WorstDeltaE00 is { } without)
        {
            message.WithoutDeltaE00 = without;
        }

        return message;
    }
}
