using System.Net;
using System.Net.Sockets;
using MixEngine.Storage;

namespace MixEngine.Service.Access;

/// <summary>Bounds how often one address may show keys that are wrong. Beyond that, what is no key is refused without asking the database for it.</summary>
/// <remarks>
/// An address may stand for many: a house, a club, a proxy. So it is never the address that is shut out: while it shows wrong keys, each key from there is first looked up among the hashes of all
/// that hold, kept in memory for that time, and only a key that is not there is refused. A key made meanwhile is found as soon as they are read anew. (To refuse the whole address would be
/// simpler, and would let one tool with an old key shut out its neighbours; a key for each account in the address's place does not exist before a key is known to be right.)
/// Everything is forgotten after a minute, and there is room for a fixed number of addresses; beyond it the others are counted as one. Of hashes eight bytes are kept: who passes by them is looked
/// up and compared in full, like everybody else.
/// </remarks>
internal sealed class WrongKeys(AccessKeyStore keys, TimeProvider clock)
{
    /// <summary>How many wrong keys an address may show within a minute.</summary>
    public const int Most = 20;

    /// <summary>How many addresses are counted each for itself.</summary>
    public const int MostAddresses = 10_000;

    private static readonly TimeSpan Window = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan BetweenReadings = TimeSpan.FromSeconds(1);

    // At most this share of the time goes into reading hashes, however many keys there are.
    private const double ReadingShare = 0.01;

    private static readonly IPAddress Others = IPAddress.Any;

    private readonly Lock _turn = new();
    private readonly Dictionary<IPAddress, int> _shown = [];
    private HashSet<ulong>? _holding;
    private long _begun, _read;
    private TimeSpan _reading;

    // Mostly nobody shows a wrong key, and then nobody waits for another's turn.
    private volatile bool _any;

    /// <summary>How long a caller must wait before another wrong key is looked at; null: this one is.</summary>
    /// <param name="from">The caller's address; null: the socket of whoever is at home.</param>
    /// <param name="key">The key that is shown; null: it cannot be read as one.</param>
    public TimeSpan? WaitOf(IPAddress? from, KeyText? key)
    {
        if (!_any || from is null)
        {
            return null;
        }

        lock (_turn)
        {
            var left = Window - clock.GetElapsedTime(_begun);
            if (left <= TimeSpan.Zero)
            {
                Forget();
                return null;
            }

            return _shown.GetValueOrDefault(Counted(from)) < Most || (key is { } shown && Holds(shown)) ? null : left;
        }
    }

    /// <summary>Counts a wrong key.</summary>
    /// <returns>Whether it is the last that the address may show for now.</returns>
    public bool Count(IPAddress? from)
    {
        if (from is null)
        {
            return false;
        }

        lock (_turn)
        {
            if (!_any || clock.GetElapsedTime(_begun) >= Window)
            {
                Forget();
                (_begun, _any) = (clock.GetTimestamp(), true);
            }

            var counted = Counted(from);
            return (_shown[counted] = _shown.GetValueOrDefault(counted) + 1) == Most;
        }
    }

    private bool Holds(KeyText key)
    {
        var hash = Shortened(key.Hash());
        if (_holding?.Contains(hash) == true)
        {
            return true;
        }

        var (wait, mostly) = (BetweenReadings, _reading / ReadingShare);
        if (_holding is not null && clock.GetElapsedTime(_read) < (wait > mostly ? wait : mostly))
        {
            return false;
        }

        var start = clock.GetTimestamp();
        _holding = [.. keys.Hashes().Select(Shortened)];
        (_read, _reading) = (clock.GetTimestamp(), clock.GetElapsedTime(start));
        return _holding.Contains(hash);
    }

    private void Forget()
    {
        _shown.Clear();
        (_holding, _any) = (null, false);
    }

    // Of the newer kind of address one house has as many as it likes: those that begin alike (64 bits) count as one.
    private IPAddress Counted(IPAddress from)
    {
        var address = from.IsIPv4MappedToIPv6 ? from.MapToIPv4() : from;
        if (address.AddressFamily == AddressFamily.InterNetworkV6)
        {
            var bytes = address.GetAddressBytes();
            bytes.AsSpan(8).Clear();
            address = new IPAddress(bytes);
        }

        return _shown.ContainsKey(address) || _shown.Count < MostAddresses ? address : Others;
    }

    private static ulong Shortened(byte[] hash) => BitConverter.ToUInt64(hash);
}
