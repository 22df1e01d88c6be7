using Google.Protobuf;
using Grpc.Core;
using MixEngine.Interchange;
using MixEngine.Service.Access;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;
using MixEngine.V1;
using Paint = MixEngine.Core.Paint;
using View = MixEngine.Core.View;

namespace MixEngine.Service.Endpoints;

/// <summary>The paints someone owns.</summary>
internal sealed class ShelvesEndpoint(ShelfStore store, LoadedShelves shelves) : V1.Shelves.ShelvesBase
{
    public override Task<ListShelvesResponse> ListShelves(ListShelvesRequest request, ServerCallContext context)
    {
        var response = new ListShelvesResponse();
        response.Shelves.Add(store.List(Caller.Of(context)).Select(shelf => new V1.ShelfSummary { Shelf = shelf.Name, Paints = shelf.Paints, Revision = shelf.Revision }));
        return Task.FromResult(response);
    }

    public override Task<ImportShelfResponse> ImportShelf(ImportShelfRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var name = ShelfName.Check(request.Shelf, violations);
        violations.ThrowIfAny();
        var (paints, notes) = ShelfImport.Read(request.Content, request.FileName, context.CancellationToken);
        string[] remarks = [.. notes, .. EvidenceRemarks.Of(paints, context.CancellationToken)];
        var change = store.Import(Caller.Of(context), name, paints, request.DryRun);
        return Task.FromResult(new ImportShelfResponse
        {
            Shelf = change.Shelf,
            Added = { change.Added.Select(paint => paint.Evidence.Name) },
            Changed = { change.Changed.Select(paint => paint.Evidence.Name) },
            Unchanged = { change.Unchanged.Select(paint => paint.Evidence.Name) },
            Remarks = { remarks },
            DryRun = request.DryRun,
        });
    }

    public override Task<ExportShelfResponse> ExportShelf(ExportShelfRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var format = FormatMapping.Read(request.Format, violations);
        violations.ThrowIfAny();
        using var stream = new MemoryStream();
        TableWriter.WriteShelf(new ShelfTable([.. shelf.Bottles.Select(bottle => EvidenceMapping.ToRow(bottle.Stored.Evidence))]), stream, format);
        return Task.FromResult(new ExportShelfResponse
        {
            FileName = shelf.Name + FormatMapping.EndingOf(format),
            Content = ByteString.CopyFrom(stream.ToArray()),
        });
    }

    public override Task<ListPaintsResponse> ListPaints(ListPaintsRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        violations.ThrowIfAny();
        var response = new ListPaintsResponse { Shelf = shelf.Name, Revision = shelf.Revision };
        foreach (var paint in shelf.Paints)
        {
            context.CancellationToken.ThrowIfCancellationRequested();
            response.Paints.Add(PaintMapping.Write(paint, view));
        }

        return Task.FromResult(response);
    }

    public override Task<GetPaintResponse> GetPaint(GetPaintRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        violations.ThrowIfAny();
        var paint = Named(shelf, request.Paint);
        var answer = PaintMapping.WriteWithCurves(paint, view);
        answer.Evidence.Add(shelf.Swatches.Of(paint.Name).Select(swatch => SwatchFitMapping.Write(swatch, shelf)));
        return Task.FromResult(answer);
    }

    public override Task<RemovePaintResponse> RemovePaint(RemovePaintRequest request, ServerCallContext context)
    {
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var paint = Named(shelf, request.Paint);
        if (store.Remove(Caller.Of(context), shelf.Name, paint.Id) is null)
        {
            throw new Refusal(StatusCode.NotFound, "paint", $"'{Shown.Of(paint.Name)}' is not a bottle on the shelf '{shelf.Name}', so there is nothing to remove.");
        }

        return Task.FromResult(new RemovePaintResponse { Removed = PaintMapping.Write(paint, View.Default) });
    }

    private static Paint Named(Shelf shelf, string name)
    {
        var violations = new Violations();
        return PaintLookup.Find(shelf, name, "paint", violations) ?? throw new Refusal(StatusCode.NotFound, violations.All);
    }
}
