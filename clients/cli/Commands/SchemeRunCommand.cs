using System.CommandLine;
using Grpc.Core;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Solves a scheme, tells how far it is, and writes its cards.</summary>
internal static class SchemeRunCommand
{
    private static readonly string[] AllFormats = ["html", "pdf", "png", "xlsx", "csv", "json"];

    private static readonly Option<string?> Out = new("--out")
    {
        Description = "Folder for the cards: pages (HTML, PDF), swatch strips (PNG), tables (xlsx, CSV) and JSON",
        HelpName = "DIR",
    };

    private static readonly Option<string[]> Formats = new("--formats")
    {
        Description = "Only these, of html, pdf, png, xlsx, csv, json [default: all]",
        HelpName = "WORD",
        AllowMultipleArgumentsPerToken = true,
    };

    public static Command Create(Argument<string> file, Option<string?> other)
    {
        var command = new Command("run", "Solve a scheme: areas, pots, bottles, amounts, and cards to paint from") { file, Out, Formats, other };
        command.SetAction(async (parsed, cancel) =>
        {
            string text = TextFile.Read(parsed.GetValue(file)!);
            string? folder = parsed.GetValue(Out);
            var request = new RunSchemeRequest { Text = text, Shelf = CommonOptions.ShelfOf(parsed), OtherShelf = parsed.GetValue(other) ?? "", RequestId = Guid.NewGuid().ToString("N") };
            if (folder is not null)
            {
                request.Formats.Add(parsed.GetValue(Formats) is { Length: > 0 } some ? some : AllFormats);
            }
            using ServiceConnection service = Answering.Connect(parsed, cancel);
            SchemeResult result = await RunAsync(service, request, folder, cancel);
            Answering.Write(parsed, new Form<SchemeResult>((page, answer) => SchemePage.Write(page, answer.Summary), SchemeTables.Of), result);
            if (folder is not null && !parsed.GetValue(CommonOptions.Json) && !parsed.GetValue(CommonOptions.Csv))
            {
                SchemePage.WriteWhere(new Page(Console.Out, Palette.OfStandardOutput), folder);
            }
            return result.Summary.NotReached.Count > 0 ? ExitCode.CannotBeReached : ExitCode.Answered;
        });
        return command;
    }

    /// <summary>Runs it, writes the files as they come, and shows progress on standard error.</summary>
    public static async Task<SchemeResult> RunAsync(ServiceConnection service, RunSchemeRequest request, string? folder, CancellationToken cancel)
    {
        // Asked first by a call that may be repeated, which also starts the local service.
        await service.AskAsync(options => service.Schemes.CheckSchemeAsync(new CheckSchemeRequest { Text = request.Text }, options));
        using var progress = new ProgressLine(Console.Error, Console.IsErrorRedirected);
        using var files = folder is null ? null : new ReportFolder(folder);
        var result = new SchemeResult();
        using AsyncServerStreamingCall<RunSchemeResponse> call = service.Schemes.RunScheme(request, SchemeCommand.Patient(service.Options));
        while (await call.ResponseStream.MoveNext(cancel))
        {
            RunSchemeResponse part = call.ResponseStream.Current;
            switch (part.PartCase)
            {
                case RunSchemeResponse.PartOneofCase.Progress:
                    progress.Show(part.Progress.Doing, part.Progress.Done, part.Progress.Of);
                    break;
                case RunSchemeResponse.PartOneofCase.Area:
                    result.Areas.Add(part.Area);
                    break;
                case RunSchemeResponse.PartOneofCase.Summary:
                    result.Summary = part.Summary;
                    break;
                case RunSchemeResponse.PartOneofCase.File:
                    files?.Write(part.File);
                    progress.Show($"writing {part.File.Name}", 0, 0);
                    break;
            }
        }
        return result;
    }
}
