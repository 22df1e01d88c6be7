using System.CommandLine;
using System.Globalization;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.Storage;

namespace MixEngine.Service.Access;

/// <summary>What is done with access keys: made, listed, revoked. It works on the database itself, whether a service runs or not.</summary>
/// <param name="environment">All variables of the environment.</param>
/// <param name="clock">The time that is kept.</param>
/// <param name="output">Gets what was done or found.</param>
/// <param name="errors">Gets why nothing was done.</param>
public sealed class KeyCommands(IReadOnlyDictionary<string, string> environment, TimeProvider clock, TextWriter output, TextWriter errors)
{
    /// <summary>The first word of these commands.</summary>
    public const string Word = "key";

    private const int LongestLabel = 100;

    private const int MostDays = 3650;

    private readonly Argument<string> _id = new("ID") { Description = "The key's id, as the list shows it." };
    private readonly Option<string> _owner = new("--owner") { HelpName = "NAME", Description = "Whose data the key opens.", Required = true };
    private readonly Option<string> _scope = new("--scope") { HelpName = "read|write|admin", Description = "What it may do; write unless said." };
    private readonly Option<string> _label = new("--label") { HelpName = "TEXT", Description = "Who or what has it." };
    private readonly Option<string?> _days = new("--days") { HelpName = "N", Description = "For how many days it holds; without end unless said." };
    private readonly DataPlace _place = new(environment, SettingList.Data, SettingList.Database, SettingList.Config);

    /// <summary>Does it.</summary>
    /// <returns>The exit code: 0 done, 1 refused.</returns>
    public int Invoke(IReadOnlyList<string> arguments)
    {
        var create = new Command("create", "Make a key, and show it this once.") { _owner, _scope, _label, _days };
        create.SetAction(parsed => With(parsed, keys => Create(keys, parsed.GetValue(_owner)!, parsed.GetValue(_scope) ?? "write", parsed.GetValue(_label) ?? "", parsed.GetValue(_days))));
        var list = new Command("list", "All keys, revoked and expired ones too; never the keys themselves.");
        list.SetAction(parsed => With(parsed, List));
        var revoke = new Command("revoke", "Take a key its power, from now on.") { _id };
        revoke.SetAction(parsed => With(parsed, keys => Revoke(keys, parsed.GetValue(_id)!)));
        var command = new RootCommand("Access keys of a service that other machines can reach.") { create, list, revoke };
        _place.AddTo(command);
        try
        {
            return command.Parse([.. arguments]).Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false, Output = output, Error = errors });
        }
        catch (Exception fault) when (fault is UnusableDatabaseException or IOException or UnauthorizedAccessException)
        {
            errors.WriteLine(fault.Message);
            return ExitCodes.Refused;
        }
    }

    private int With(ParseResult parsed, Func<AccessKeyStore, int> act) => _place.With(parsed, errors, (data, _, _) =>
    {
        using var database = RunningService.OpenDatabase(data);
        return act(new AccessKeyStore(database));
    });

    private int Create(AccessKeyStore keys, string owner, string word, string label, string? days)
    {
        if (!Owner.IsName(owner))
        {
            return Refuse($"--owner: '{owner}' is no name for an owner; use 1 to {Owner.Longest} small letters a to z, digits, '-', '_' or '.'.");
        }

        if (word.Any(letter => !char.IsAsciiLetterLower(letter)) || !Enum.TryParse<Scope>(word, ignoreCase: true, out var scope))
        {
            return Refuse($"--scope: '{word}' is not known; use read, write or admin.");
        }

        if (label.Length > LongestLabel || label.Any(char.IsControl))
        {
            return Refuse($"--label: use at most {LongestLabel} letters on one line.");
        }

        var count = 0;
        if (days is not null && !(int.TryParse(days, NumberStyles.None, CultureInfo.InvariantCulture, out count) && count is >= 1 and <= MostDays))
        {
            return Refuse($"--days: '{days}' is no whole number of days from 1 to {MostDays}; leave it out for a key without end.");
        }

        var text = KeyText.New();
        var now = clock.GetUtcNow();
        var key = new AccessKey(text.Id, Owner.Named(owner), scope, label, now, null, count > 0 ? now.AddDays(count) : null);
        keys.Add(key, text.Hash());

        // The key alone goes to standard output, for a script to take.
        output.WriteLine(text.Whole());
        errors.WriteLine($"Key {text.Id} of {owner}, which may {word}. It is shown this once; only a hash of it is kept. Send it as: authorization: Bearer KEY");
        if (key.Expires is { } end)
        {
            errors.WriteLine($"It holds until {end.ToString("u", CultureInfo.InvariantCulture)}.");
        }

        return ExitCodes.Ended;
    }

    private int List(AccessKeyStore keys)
    {
        var all = keys.List();
        if (all.Count == 0)
        {
            errors.WriteLine("There are no keys yet. Make one: key create --owner NAME");
        }

        foreach (var key in all)
        {
            output.WriteLine(string.Join('\t', key.Id, key.Owner.Name, key.Scope.ToString().ToLowerInvariant(), $"made {Day(key.Created)}", State(key), key.Label).TrimEnd('\t'));
        }

        return ExitCodes.Ended;
    }

    private int Revoke(AccessKeyStore keys, string id)
    {
        if (keys.Revoke(id, clock.GetUtcNow()) is not { } key)
        {
            return Refuse($"There is no key '{(id.Length > 12 ? id[..12] + "..." : id)}'; give an id as key list shows it, not the key itself.");
        }

        output.WriteLine($"Key {key.Id} of {key.Owner.Name} opens nothing any more, since {key.Revoked?.ToString("u", CultureInfo.InvariantCulture)}.");
        return ExitCodes.Ended;
    }

    private int Refuse(string words)
    {
        errors.WriteLine(words);
        return ExitCodes.Refused;
    }

    private string State(AccessKey key) => key switch
    {
        { Revoked: { } moment } => $"revoked {Day(moment)}",
        { Expires: { } moment } => key.HasExpired(clock.GetUtcNow()) ? $"expired {Day(moment)}" : $"holds until {Day(moment)}",
        _ => "holds",
    };

    private static string Day(DateTimeOffset moment) => moment.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
