using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Interchange;
using MixEngine.Service.Access;
using MixEngine.Service.Computing;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;
using MixEngine.V1;
using Characterization = MixEngine.Core.Characterization;
using PaintKind = MixEngine.Core.PaintKind;
using Recipe = MixEngine.Core.Recipe;
using SwatchAdvice = MixEngine.V1.SwatchAdvice;

namespace MixEngine.Service.Endpoints;

/// <summary>Measured dry colours, from which the engine learns what paints are.</summary>
internal sealed class SwatchesEndpoint(SwatchStore store, LoadedShelves shelves, Workshop workshop) : Swatches.SwatchesBase
{
    private const int DefaultPage = 200, LargestPage = 1000;

    // What changes or weighs what is learnt takes its time on a shelf of many swatches.
    public override Task<AddSwatchResponse> AddSwatch(AddSwatchRequest request, ServerCallContext context) =>
        workshop.Searches.RunAsync(() => Add(request, context), context.CancellationToken);

    public override Task<CorrectSwatchResponse> CorrectSwatch(CorrectSwatchRequest request, ServerCallContext context) =>
        workshop.Searches.RunAsync(() => Correct(request, context), context.CancellationToken);

    public override Task<RemoveSwatchResponse> RemoveSwatch(RemoveSwatchRequest request, ServerCallContext context) =>
        workshop.Searches.RunAsync(() => Remove(request, context), context.CancellationToken);

    public override Task<ImportSwatchesResponse> ImportSwatches(ImportSwatchesRequest request, ServerCallContext context) =>
        workshop.Searches.RunAsync(() => Import(request, context), context.CancellationToken);

    public override Task<AdviseSwatchResponse> AdviseSwatch(AdviseSwatchRequest request, ServerCallContext context) =>
        workshop.Searches.RunAsync(() => Advise(request, context), context.CancellationToken);

    private AddSwatchResponse Add(AddSwatchRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var before = shelves.Get(Caller.Of(context), request.Shelf);
        if (request.Swatch?.Id.Length > 0)
        {
            violations.Add("swatch.id", $"'{Shown.Of(request.Swatch.Id)}' is given; the engine gives ids. Leave it out, or correct the swatch that has it.");
        }

        if (before.Swatches.Count >= SwatchImport.MostSwatches)
        {
            violations.Add("shelf", $"It keeps {before.Swatches.Count} swatches already; a shelf may have {SwatchImport.MostSwatches}.");
        }

        var evidence = SwatchMapping.Read(request.Swatch, "swatch", before, violations);
        violations.ThrowIfAny();
        var (change, after) = Keep(Caller.Of(context), before, [(null, evidence!)], dryRun: false, "swatch.film", context.CancellationToken);
        var response = new AddSwatchResponse { Paints = { PaintChangeMapping.Write(before, after, change.Added.Select(swatch => swatch.Evidence)) } };
        if (change.AlreadyThere is [var same])
        {
            response.Remarks.Add($"The very same is kept already as '{same.Id}', so nothing was added.");
        }

        response.Fit = SwatchFitMapping.Write(change.Added.Concat(change.AlreadyThere).First(), after);
        response.Remarks.Add(Remarks(evidence!));
        return response;
    }

    private CorrectSwatchResponse Correct(CorrectSwatchRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var before = shelves.Get(Caller.Of(context), request.Shelf);
        var stored = Named(before, request.Swatch?.Id ?? "", "swatch.id");
        var evidence = SwatchMapping.Read(request.Swatch, "swatch", before, violations);
        violations.ThrowIfAny();
        var corrected = new StoredSwatch(stored.Id, evidence!);
        FilmRecipes.Check(before.Swatches, [corrected], "swatch.film", violations);
        violations.ThrowIfAny();

        // Learnt before it is kept: what the engine refuses changes nothing.
        shelves.With(Caller.Of(context), before, [.. before.Swatches.Select(swatch => swatch.Id == stored.Id ? corrected : swatch)], context.CancellationToken);
        var replaced = store.Correct(Caller.Of(context), before.Name, corrected) ?? throw NoSuchSwatch(before, stored.Id, "swatch.id");
        var after = shelves.Get(Caller.Of(context), before.Name);
        return new CorrectSwatchResponse
        {
            Fit = SwatchFitMapping.Write(corrected, after),
            Before = SwatchMapping.Write(replaced),
            Paints = { PaintChangeMapping.Write(before, after, [replaced.Evidence, corrected.Evidence]) },
            Remarks = { Remarks(corrected.Evidence) },
        };
    }

    private RemoveSwatchResponse Remove(RemoveSwatchRequest request, ServerCallContext context)
    {
        var before = shelves.Get(Caller.Of(context), request.Shelf);
        var stored = Named(before, request.Id, "id");
        var removed = store.Remove(Caller.Of(context), before.Name, stored.Id) ?? throw NoSuchSwatch(before, stored.Id, "id");
        return new RemoveSwatchResponse
        {
            Removed = SwatchMapping.Write(removed),
            Paints = { PaintChangeMapping.Write(before, shelves.Get(Caller.Of(context), before.Name), [removed.Evidence]) },
        };
    }

    public override Task<ListSwatchesResponse> ListSwatches(ListSwatchesRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var page = violations.InRange("page_size", request.PageSize, 1, LargestPage, DefaultPage);
        var from = PageStart(request.PageToken, shelf, violations);
        IEnumerable<StoredSwatch> chosen = request.Paint.Length == 0 ? shelf.Swatches : shelf.Swatches.Of(NameOf(request.Paint, shelf, violations));
        violations.ThrowIfAny();
        if (request.SuspectsFirst)
        {
            chosen = chosen.OrderByDescending(swatch => shelf.Learning.FitOf(swatch.Id)?.Surprise ?? double.MaxValue);
        }

        var all = chosen.ToArray();
        var response = new ListSwatchesResponse { Total = all.Length };
        response.Swatches.Add(all.Skip(from).Take(page).Select(swatch => SwatchFitMapping.Write(swatch, shelf)));
        if (from + page < all.Length)
        {
            response.NextPageToken = string.Create(CultureInfo.InvariantCulture, $"{shelf.Revision}.{from + page}");
        }

        return Task.FromResult(response);
    }

    private ImportSwatchesResponse Import(ImportSwatchesRequest request, ServerCallContext context)
    {
        var before = shelves.Get(Caller.Of(context), request.Shelf);
        var (swatches, remarks) = SwatchImport.Read(request, before, context.CancellationToken);
        var (change, after) = Keep(Caller.Of(context), before, swatches, request.DryRun, "content", context.CancellationToken);
        return new ImportSwatchesResponse
        {
            Added = change.Added.Count,
            AlreadyThere = change.AlreadyThere.Count,
            Paints = { PaintChangeMapping.Write(before, after, change.Added.Select(swatch => swatch.Evidence)) },
            Suspects = { SwatchFitMapping.Suspects(after, after.Swatches) },
            Remarks = { remarks.Concat(Unused(change.Added, after)) },
            DryRun = request.DryRun,
        };
    }

    public override Task<ExportSwatchesResponse> ExportSwatches(ExportSwatchesRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var format = FormatMapping.ReadForSwatches(request.Format, violations);
        violations.ThrowIfAny();
        using var stream = new MemoryStream();
        TableWriter.WriteSwatches(SwatchRowMapping.ToTable(shelf.Swatches), stream, format);
        return Task.FromResult(new ExportSwatchesResponse
        {
            FileName = $"{shelf.Name}-swatches{FormatMapping.EndingOf(format)}",
            Content = ByteString.CopyFrom(stream.ToArray()),
        });
    }

    private AdviseSwatchResponse Advise(AdviseSwatchRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var paint = PaintLookup.Find(shelf, request.Paint, "paint", violations);
        var count = violations.InRange("count", request.Count, 1, 10, 3);
        violations.ThrowIfAny();
        if (paint!.Kind != PaintKind.Paint)
        {
            throw new Refusal(StatusCode.InvalidArgument, "paint", $"'{Shown.Of(paint.Name)}' is {Words.Kind.For(paint.Kind)}: it has no pigment, so no swatch tells anything of it. Name a paint.");
        }

        var learnt = shelf.Learning.Result ?? Characterization.Of(shelf.AtHand, [ItsOwnColor(paint)], context.CancellationToken);
        var advice = Core.SwatchAdvice.For(learnt, paint.Id, context.CancellationToken).Take(count).ToArray();
        if (advice.Length == 0)
        {
            throw new Refusal(StatusCode.InvalidArgument, "paint", $"There is no other paint on the shelf '{shelf.Name}' to mix '{Shown.Of(paint.Name)}' with; add a white first.");
        }

        return new AdviseSwatchResponse
        {
            Advice =
            {
                advice.Select(each => new SwatchAdvice
                {
                    Recipe = RecipeMapping.Write(new Recipe(each.Parts.Select(part => new Core.Part(shelf.AtHand.First(known => known.Id == part.PaintId), part.Parts)))),
                    Words = $"Paint {each.Words} in a hiding layer, let it dry, and measure it.",
                    BoundNowDeltaE00 = each.BoundNow,
                    BoundAfterDeltaE00 = each.BoundAfter,
                }),
            },
        };
    }

    // Where nothing was measured yet, all that is known is the colour it was entered with.
    private static Core.Swatch ItsOwnColor(Core.Paint paint) => new()
    {
        Id = "its own colour",
        Parts = [new Core.SwatchPart(paint.Id, 1)],
        Color = Core.MeasuredColor.Of(Core.Prediction.LabOf(Recipe.Of(paint), Core.View.Default), Core.View.Default.Condition),
        Source = Core.ReadingSource.Guess,
    };

    // Learnt from before it is kept: what the engine refuses changes nothing.
    private (SwatchChange Change, Shelf After) Keep(Owner owner, Shelf before, IReadOnlyList<(string?, SwatchEvidence)> swatches, bool dryRun, string filmField, CancellationToken cancellationToken)
    {
        var planned = store.Import(owner, before.Name, swatches, dryRun: true) ?? throw Gone(before);
        StoredSwatch[] together = [.. before.Swatches, .. planned.Added];
        var violations = new Violations();
        FilmRecipes.Check(together, planned.Added, filmField, violations);
        violations.ThrowIfAny();
        var imagined = shelves.With(owner, before, together, cancellationToken);
        return dryRun
            ? (planned, imagined)
            : (store.Import(owner, before.Name, swatches, dryRun: false) ?? throw Gone(before), shelves.Get(owner, before.Name));
    }

    // What is kept but says nothing to the engine.
    private static IEnumerable<string> Remarks(SwatchEvidence evidence)
    {
        if (evidence is { Coats: not null, ThicknessUm: null })
        {
            yield return "The number of coats is kept; the film's thickness is inferred, since no two painters' coats are alike.";
        }
    }

    private static IEnumerable<string> Unused(IReadOnlyList<StoredSwatch> added, Shelf shelf) => added
        .Where(swatch => shelf.Learning.FitOf(swatch.Id) is null)
        .Select(swatch => shelf.Learning.RemarkOn(swatch.Id))
        .OfType<string>()
        .Distinct();

    private static string NameOf(string paint, Shelf shelf, Violations violations) =>
        shelf.Swatches.Of(paint).Any() ? paint : PaintLookup.Find(shelf, paint, "paint", violations)?.Name ?? "";

    private static int PageStart(string token, Shelf shelf, Violations violations)
    {
        if (token.Length == 0)
        {
            return 0;
        }

        if (token.Split('.') is [var revision, var from]
            && long.TryParse(revision, NumberStyles.None, CultureInfo.InvariantCulture, out var then)
            && int.TryParse(from, NumberStyles.None, CultureInfo.InvariantCulture, out var start))
        {
            if (then != shelf.Revision)
            {
                violations.Add("page_token", "The shelf has changed since the page before; begin again without a token.");
            }

            return start;
        }

        violations.Add("page_token", $"'{Shown.Of(token)}' is not from an answer; give next_page_token of the page before.");
        return 0;
    }

    private static StoredSwatch Named(Shelf shelf, string id, string field) => shelf.Swatches.FirstOrDefault(swatch => swatch.Id == id) ?? throw NoSuchSwatch(shelf, id, field);

    private static Refusal NoSuchSwatch(Shelf shelf, string id, string field) => new(
        StatusCode.NotFound, field, $"There is no swatch '{Shown.Of(id)}' on the shelf '{shelf.Name}'. List the swatches to see their ids.");

    private static Refusal Gone(Shelf shelf) => new(StatusCode.NotFound, "shelf", $"There is no shelf '{shelf.Name}' any more.");
}
