using MixEngine.Storage;

namespace MixEngine.Service.Batches;

/// <summary>
/// Which answers of a batch one connection has sent: one bit for each answer of the batch, whose number is its place. So it stays small beside what the database keeps of them, however many
/// the asker leaves unacknowledged. Safe to use from several threads.
/// </summary>
internal sealed class SentAnswers
{
    private const int BitsOfWord = 64;

    private readonly Lock _lock = new();
    private ulong[] _words = [];
    private long? _batch;

    /// <summary>Notes that an answer is sent now. False: it was sent before. Null: it belongs to another batch, opened under the same id since this one was discarded.</summary>
    public bool? Add(long number)
    {
        if (number == 0)
        {
            // Kept by a replica that still runs as it was before answers had numbers: better twice than never.
            return true;
        }

        lock (_lock)
        {
            if ((_batch ??= number >> BatchStore.NumberBits) != number >> BatchStore.NumberBits)
            {
                return null;
            }

            var place = number & ((1L << BatchStore.NumberBits) - 1);
            var (word, bit) = ((int)(place / BitsOfWord), 1UL << (int)(place % BitsOfWord));
            if (word >= _words.Length)
            {
                Array.Resize(ref _words, Math.Max(word + 1, _words.Length * 2));
            }

            var isNew = (_words[word] & bit) == 0;
            _words[word] |= bit;
            return isNew;
        }
    }
}
