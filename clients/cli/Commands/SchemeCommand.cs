using System.CommandLine;
using Grpc.Core;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Schemes of whole forces: solved together, kept, and compared.</summary>
internal static class SchemeCommand
{
    private static readonly Argument<string> File = new("file") { Description = "The scheme: a TOML file" };

    private static readonly Argument<long> Run = new("run") { Description = "The number of a run, as scheme list shows it" };

    private static readonly Option<string?> Other = new("--other-shelf")
    {
        Description = "Somebody else's shelf: the scheme from there, step by step beside your own",
        HelpName = "NAME",
    };

    public static Command Create() => new("scheme", "The colours of a whole force, solved together from the fewest bottles, with cards to paint from")
    {
        SchemeRunCommand.Create(File, Other), Check(), Schema(), List(), Show(), Replay(), Compare(),
    };

    private static Command Check()
    {
        var command = new Command("check", "Say what is wrong with a scheme file, with line and key, without solving it") { File };
        command.SetAction((parsed, cancel) =>
        {
            var request = new CheckSchemeRequest { Text = TextFile.Read(parsed.GetValue(File)!) };
            return parsed.AnswerAsync((service, options) => service.Schemes.CheckSchemeAsync(request, options), new Form<CheckSchemeResponse>(SchemePage.Write, SchemeTables.Of), cancel);
        });
        return command;
    }

    private static Command Schema()
    {
        var command = new Command("schema", "The JSON schema of a scheme file, for editors");
        command.SetAction(async (parsed, cancel) =>
        {
            using ServiceConnection service = Answering.Connect(parsed, cancel);
            GetSchemeSchemaResponse answer = await service.AskAsync(options => service.Schemes.GetSchemeSchemaAsync(new GetSchemeSchemaRequest(), options));
            Console.Out.Write(answer.JsonSchema);
            return ExitCode.Answered;
        });
        return command;
    }

    private static Command List()
    {
        var command = new Command("list", "The runs that were kept, the latest first");
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Schemes.ListSchemeRunsAsync(new ListSchemeRunsRequest(), options),
            new Form<ListSchemeRunsResponse>(SchemePage.Write, SchemeTables.Of), cancel));
        return command;
    }

    private static Command Show()
    {
        var command = new Command("show", "A run as it was answered") { Run };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Schemes.GetSchemeRunAsync(new GetSchemeRunRequest { Run = parsed.GetValue(Run) }, options),
            new Form<GetSchemeRunResponse>((page, answer) => SchemePage.Write(page, answer.Result.Summary), answer => SchemeTables.Of(answer.Result)), cancel));
        return command;
    }

    private static Command Replay()
    {
        var command = new Command("replay", "Solve a kept run again from what was kept of it: is every bit the same?") { Run };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Schemes.ReplaySchemeRunAsync(new ReplaySchemeRunRequest { Run = parsed.GetValue(Run) }, Patient(options)),
            new Form<ReplaySchemeRunResponse>(SchemePage.Write, SchemeTables.Of) { ExitCode = answer => answer.Identical ? ExitCode.Answered : ExitCode.CannotBeReached }, cancel));
        return command;
    }

    private static Command Compare()
    {
        var command = new Command("compare", "Solve a kept run again from the shelf as it is now, or from another one: what moved?") { Run, Other };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Schemes.CompareSchemeRunAsync(new CompareSchemeRunRequest { Run = parsed.GetValue(Run), Shelf = parsed.GetValue(Other) ?? "" }, Patient(options)),
            new Form<CompareSchemeRunResponse>(SchemePage.Write, SchemeTables.Of), cancel));
        return command;
    }

    /// <summary>A whole scheme may take longer than one question.</summary>
    public static CallOptions Patient(CallOptions options) => options.Deadline is null ? options.WithDeadline(DateTime.UtcNow.AddMinutes(30)) : options;
}
