using System.Reflection;
using System.Security.Cryptography;
using Google.Protobuf;
using MixEngine.Core;
using MixEngine.Planning;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Schemes;

/// <summary>Solves schemes from shelves as they are, or as they were when a run was kept.</summary>
internal sealed class SchemeRunner(LoadedShelves shelves, ShelfStore stored)
{
    /// <summary>The program's version, as it is kept with runs.</summary>
    public static string EngineVersion { get; } =
        typeof(SchemeRunner).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";

    /// <summary>The shelves of an owner that a request is about, as they are now, by the names it calls them by.</summary>
    public IReadOnlyDictionary<string, StoredShelf> Snapshot(Owner owner, Scheme scheme, V1.RunSchemeRequest request)
    {
        var snapshot = new Dictionary<string, StoredShelf>();
        foreach (var name in Names(scheme, request).Distinct())
        {
            // Named as it is stored, and refused as everywhere where it is not there.
            snapshot[name] = stored.Find(owner, shelves.Get(owner, name).Name)!;
        }

        return snapshot;
    }

    /// <summary>Solves a request from a snapshot.</summary>
    public static SchemeAnswer Solve(Scheme scheme, V1.RunSchemeRequest request, IReadOnlyDictionary<string, StoredShelf> snapshot, Action<SchemeProgress>? progress, CancellationToken cancellation)
    {
        Shelf Derived(string name) => Shelf.Of(snapshot[name]);
        var own = ShelfNames(scheme, request).Select(Derived).ToArray();
        var input = SchemePaints.Input(scheme, own, scheme.BuyFrom is { } boat ? Derived(boat) : null);
        return EngineRefusal.InField("text", () =>
        {
            var plan = SchemeSolver.Solve(input, progress, cancellation);
            var elsewhere = request.OtherShelf.Length > 0
                ? SchemeComparison.Of(plan, SchemeSolver.SolveElsewhere(plan, [.. Derived(request.OtherShelf).Paints], progress, cancellation))
                : null;
            var states = snapshot.Values.Select(shelf => new V1.ShelfState { Shelf = shelf.Name, Revision = shelf.Revision });
            return new SchemeAnswer(plan, elsewhere, SchemeMapping.Write(plan, elsewhere, states, EngineVersion));
        });
    }

    /// <summary>SHA-256 of an answer, the run's number left out.</summary>
    public static string DigestOf(V1.SchemeResult result)
    {
        var unnumbered = result.Clone();
        unnumbered.Summary.Run = 0;
        return Convert.ToHexStringLower(SHA256.HashData(unnumbered.ToByteArray()));
    }

    private static IEnumerable<string> Names(Scheme scheme, V1.RunSchemeRequest request) =>
    [
        .. ShelfNames(scheme, request),
        .. scheme.BuyFrom is { } boat ? [boat] : Array.Empty<string>(),
        .. request.OtherShelf.Length > 0 ? [request.OtherShelf] : Array.Empty<string>(),
    ];

    private static IReadOnlyList<string> ShelfNames(Scheme scheme, V1.RunSchemeRequest request) => scheme.Shelves.Count > 0 ? scheme.Shelves : [request.Shelf];
}

/// <summary>A solved request.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Elsewhere">Beside it the one from another shelf; null: not asked for.</param>
/// <param name="Result">The same as it is answered.</param>
internal sealed record SchemeAnswer(SchemePlan Plan, SchemeComparison? Elsewhere, V1.SchemeResult Result);
