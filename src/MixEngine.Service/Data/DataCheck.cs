using Google.Protobuf;
using MixEngine.Service.Schemes;
using MixEngine.Service.Shelves;
using MixEngine.Storage;
using MixEngine.V1;

namespace MixEngine.Service.Data;

/// <summary>Reads everything that is stored as the service would, and names what cannot be read.</summary>
public static class DataCheck
{
    private const int BatchPage = 64;

    /// <summary>Every fault, in plain words: where it is, then what.</summary>
    public static IEnumerable<string> Faults(Database database)
    {
        var stored = new StoredData(database);
        var damage = stored.Damage();
        foreach (var fault in damage)
        {
            yield return fault;
        }

        // In a damaged file what is read next may be anything.
        if (damage.Count > 0)
        {
            yield break;
        }

        foreach (var fault in Read("the access keys", () => new AccessKeyStore(database).List()))
        {
            yield return fault;
        }

        foreach (var owner in stored.Owners())
        {
            var faults = Shelves(new ShelfStore(database), owner)
                .Concat(Runs(stored, new SchemeRunStore(database, TimeProvider.System), owner))
                .Concat(Read($"the mixes of '{owner}'", () => new MixLog(database).List(owner, null)))
                .Concat(Batches(stored, new BatchStore(database, TimeProvider.System), owner));
            foreach (var fault in faults)
            {
                yield return fault;
            }
        }
    }

    private static IEnumerable<string> Shelves(ShelfStore store, Owner owner)
    {
        foreach (var name in store.List(owner).Select(summary => summary.Name))
        {
            StoredShelf? shelf = null;
            var where = $"shelf '{name}' of '{owner}'";
            var faults = Read(where, () => shelf = store.Find(owner, name)).ToArray()
                .Concat((shelf?.Paints ?? []).SelectMany(paint => Read($"{where}, paint '{paint.Id}'", () => PaintFromEvidence.Derive(paint))))
                .Concat((shelf?.Swatches ?? []).SelectMany(swatch => Read($"{where}, swatch '{swatch.Id}'", () => StoredColorText.Read(swatch.Evidence.Color))));
            foreach (var fault in faults)
            {
                yield return fault;
            }
        }
    }

    private static IEnumerable<string> Runs(StoredData stored, SchemeRunStore store, Owner owner) => stored.Runs(owner).SelectMany(number => Read($"scheme run {number} of '{owner}'", () =>
    {
        var (run, content) = store.Find(owner, number)!.Value;
        RunSchemeRequest.Parser.ParseFrom(content.Request);
        if (SchemeRunner.DigestOf(SchemeResult.Parser.ParseFrom(content.Answer)) != run.Digest)
        {
            throw new InvalidDataException("its answer is not the one that was kept: the digest differs");
        }
    }));

    private static IEnumerable<string> Batches(StoredData stored, BatchStore store, Owner owner)
    {
        foreach (var batch in stored.Batches(owner))
        {
            string? after = null;
            while (store.Kept(owner, batch, after, BatchPage) is { Count: > 0 } page)
            {
                foreach (var fault in page.SelectMany(answer => Read($"batch '{batch}' of '{owner}', answer '{answer.Key}'", () => BatchAnswer.Parser.ParseFrom(answer.Answer))))
                {
                    yield return fault;
                }

                after = page[^1].Key;
            }
        }
    }

    // Whatever a reader makes of bytes that were never written so: it is told, and the next is read.
    private static IEnumerable<string> Read(string what, Action read)
    {
        try
        {
            read();
            return [];
        }
        catch (Exception fault) when (fault is not OutOfMemoryException)
        {
            return [$"{what}: {(fault is InvalidProtocolBufferException ? "its bytes are no message of ours" : fault.Message)}"];
        }
    }
}
