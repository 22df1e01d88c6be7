using System.CommandLine;
using MixEngine.Cli.Connection;

namespace MixEngine.Cli.Commands;

/// <summary>Access keys of a service that other machines can reach. The service's program does it, on the database where its data lies.</summary>
internal static class KeyCommand
{
    private static readonly Option<string> Owner = new("--owner") { Description = "Whose shelves the key opens", HelpName = "NAME", Required = true };

    private static readonly Option<string> Scope = new("--scope") { Description = "What it may do: read, write or admin [default: write]", HelpName = "WORD" };

    private static readonly Option<string> Label = new("--label") { Description = "Who or what has it", HelpName = "TEXT" };

    private static readonly Option<string> Days = new("--days") { Description = "For how many days it holds [default: without end]", HelpName = "N" };

    private static readonly Argument<string> Id = new("id") { Description = "The key's id, as the list shows it" };

    private static readonly Option<string> Data = new("--data") { Description = "The folder of the shelves [default: yours]", HelpName = "DIR" };

    private static readonly Option<string> Database = new("--database") { Description = "The database of PostgreSQL [default: MIXENGINE_DATABASE, if set]", HelpName = "SETTINGS" };

    private static readonly Option<string> Config = new("--config") { Description = "The service's own TOML file, which says where its data lies", HelpName = "FILE" };

    public static Command Create()
    {
        var create = new Command("create", "Make a key and print it, this once: only a hash of it is kept") { Owner, Scope, Label, Days };
        create.SetAction((parsed, cancel) => RunAsync(parsed, cancel, ["create", .. Said(parsed, Owner, Scope, Label, Days)]));
        var list = new Command("list", "All keys with owner and scope, revoked and expired ones too");
        list.SetAction((parsed, cancel) => RunAsync(parsed, cancel, ["list"]));
        var revoke = new Command("revoke", "Take a key its power, from now on") { Id };
        revoke.SetAction((parsed, cancel) => RunAsync(parsed, cancel, ["revoke", parsed.GetValue(Id)!]));
        var command = new Command("key", "Access keys, for a service that several users share") { create, list, revoke };
        foreach (Option<string> option in new[] { Data, Database, Config })
        {
            option.Recursive = true;
            command.Options.Add(option);
        }
        return command;
    }

    private static Task<int> RunAsync(ParseResult parsed, CancellationToken cancel, string[] words)
    {
        if (parsed.GetValue(CommonOptions.Server) is not null)
        {
            throw new Refusal("--server: keys are made where the service's data lies. Say where with --data, --database or --config.");
        }
        return ServiceProgram.RunAsync(["key", .. words, .. Said(parsed, Data, Database, Config)], cancel);
    }

    private static IEnumerable<string> Said(ParseResult parsed, params Option<string>[] options) =>
        options.SelectMany(option => parsed.GetValue(option) is { } value ? new[] { option.Name, value } : []);
}
