using System.Threading.Channels;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Reports;
using MixEngine.Service.Access;
using MixEngine.Service.Calls;
using MixEngine.Service.Computing;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Schemes;
using MixEngine.Storage;
using MixEngine.V1;
using Scheme = MixEngine.Core.Scheme;
using SchemeRun = MixEngine.Storage.SchemeRun;

namespace MixEngine.Service.Endpoints;

/// <summary>Schemes of whole forces.</summary>
internal sealed class SchemesEndpoint(SchemeRunner runner, Workshop workshop, SchemeRunStore runs, MixLog mixes, TimeProvider clock) : V1.Schemes.SchemesBase
{
    private const string JsonFormat = "json";
    private const int PieceBytes = 1 << 20;
    private static readonly JsonFormatter Json = new(JsonFormatter.Settings.Default.WithIndentation());

    public override Task<GetSchemeSchemaResponse> GetSchemeSchema(GetSchemeSchemaRequest request, ServerCallContext context) =>
        Task.FromResult(new GetSchemeSchemaResponse { JsonSchema = SchemeReader.JsonSchema });

    public override Task<CheckSchemeResponse> CheckScheme(CheckSchemeRequest request, ServerCallContext context)
    {
        var scheme = SchemePaints.Read(request.Text);
        return Task.FromResult(new CheckSchemeResponse { Name = scheme.Name, Figures = scheme.Figures.Sum(figure => figure.Count), Areas = scheme.Areas.Count() });
    }

    public override async Task RunScheme(RunSchemeRequest request, IServerStreamWriter<RunSchemeResponse> responseStream, ServerCallContext context)
    {
        CheckFormats(request.Formats);
        var owner = Caller.Of(context);
        var scheme = SchemePaints.Read(request.Text);
        // What was answered under this id before is answered again as it was, and not kept twice.
        var asked = Asked(request);
        var once = RequestId.Of(request.RequestId, asked);
        if (once is not null && RequestId.Once(() => runs.OfRequest(owner, once)) is { } known)
        {
            await SendAgainAsync(owner, known, request.Formats, responseStream, context.CancellationToken);
            return;
        }

        // Solve beside the stream, so that progress is told while it goes on.
        var snapshot = runner.Snapshot(owner, scheme, request);
        var answer = await TellingAsync(tell => SchemeRunner.Solve(scheme, request, snapshot, tell, context.CancellationToken), responseStream, context.CancellationToken);
        var content = new SchemeRunContent(asked.ToByteArray(), snapshot, answer.Result.ToByteArray());
        var run = RequestId.Once(() => runs.Keep(owner, scheme.Name, SchemeRunner.EngineVersion, SchemeRunner.DigestOf(answer.Result), content, once));
        answer.Result.Summary.Run = run.Run;
        await SendAsync(answer.Result, responseStream, context.CancellationToken);
        await SendAsync(Files(answer, request.Formats, run.Made), responseStream, context.CancellationToken);
    }

    public override Task<ListSchemeRunsResponse> ListSchemeRuns(ListSchemeRunsRequest request, ServerCallContext context) =>
        Task.FromResult(new ListSchemeRunsResponse { Runs = { runs.List(Caller.Of(context)).Select(Write) } });

    public override Task<GetSchemeRunResponse> GetSchemeRun(GetSchemeRunRequest request, ServerCallContext context)
    {
        var (run, content) = Find(Caller.Of(context), request.Run);
        var result = SchemeResult.Parser.ParseFrom(content.Answer);
        result.Summary.Run = run.Run;
        return Task.FromResult(new GetSchemeRunResponse { Run = Write(run), Result = result, Text = RunSchemeRequest.Parser.ParseFrom(content.Request).Text });
    }

    public override async Task<ReplaySchemeRunResponse> ReplaySchemeRun(ReplaySchemeRunRequest request, ServerCallContext context)
    {
        var (run, content) = Find(Caller.Of(context), request.Run);
        var asked = RunSchemeRequest.Parser.ParseFrom(content.Request);
        var again = await workshop.Searches.RunAsync(
            () => SchemeRunner.Solve(SchemePaints.Read(asked.Text), asked, content.Shelves, null, context.CancellationToken), context.CancellationToken);

        // The version stands in the answer: it alone makes no difference.
        again.Result.Summary.EngineVersion = run.EngineVersion;
        var digest = SchemeRunner.DigestOf(again.Result);
        return new ReplaySchemeRunResponse
        {
            Identical = digest == run.Digest, DigestThen = run.Digest, DigestNow = digest, EngineVersionThen = run.EngineVersion, EngineVersionNow = SchemeRunner.EngineVersion,
        };
    }

    public override async Task<CompareSchemeRunResponse> CompareSchemeRun(CompareSchemeRunRequest request, ServerCallContext context)
    {
        var owner = Caller.Of(context);
        var (_, content) = Find(owner, request.Run);
        var asked = RunSchemeRequest.Parser.ParseFrom(content.Request);
        asked.OtherShelf = request.Shelf;
        var scheme = SchemePaints.Read(asked.Text);
        var comparison = await workshop.Searches.RunAsync(() => request.Shelf.Length > 0
            ? Elsewhere(owner, scheme, asked, content, context.CancellationToken)
            : SchemeComparison.Of(
                SchemeRunner.Solve(scheme, asked, content.Shelves, null, context.CancellationToken).Plan,
                SchemeRunner.Solve(scheme, asked, runner.Snapshot(owner, scheme, asked), null, context.CancellationToken).Plan), context.CancellationToken);
        return new CompareSchemeRunResponse
        {
            Steps = { comparison.Steps.Select(SchemeMapping.Write) },
            Moved = comparison.Steps.Count(step => step.OtherMix || step.DeltaE00 > 0),
            WorstDeltaE00 = comparison.WorstDeltaE00,
        };
    }

    public override Task<LogMixResponse> LogMix(LogMixRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var mix = MadeMixMapping.Read(request.Mix, clock.GetUtcNow(), violations);
        violations.ThrowIfAny();
        var once = RequestId.Of(request.RequestId, request.Mix);
        var kept = RequestId.Once(() => mixes.Add(Caller.Of(context), mix!, once))
            ?? throw new Refusal(StatusCode.InvalidArgument, "mix.run", $"There is no scheme run {mix!.Run}; list them, or leave it out.");
        return Task.FromResult(new LogMixResponse { Mix = MadeMixMapping.Write(kept) });
    }

    public override Task<ListMixesResponse> ListMixes(ListMixesRequest request, ServerCallContext context) =>
        Task.FromResult(new ListMixesResponse { Mixes = { mixes.List(Caller.Of(context), request.Run == 0 ? null : request.Run).Select(MadeMixMapping.Write) } });

    private SchemeComparison Elsewhere(Owner owner, Scheme scheme, RunSchemeRequest asked, SchemeRunContent content, CancellationToken cancellation)
    {
        // The run's own shelves as they were, the other one as it is.
        var shelves = content.Shelves.ToDictionary();
        shelves[asked.OtherShelf] = runner.Snapshot(owner, scheme, asked)[asked.OtherShelf];
        return SchemeRunner.Solve(scheme, asked, shelves, null, cancellation).Elsewhere!;
    }

    private async Task<SchemeAnswer> TellingAsync(Func<Action<Planning.SchemeProgress>, SchemeAnswer> solve, IServerStreamWriter<RunSchemeResponse> stream, CancellationToken cancellation)
    {
        // Only the latest matters: a slow reader does not slow the solving.
        var told = Channel.CreateBounded<Planning.SchemeProgress>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest });
        var solving = workshop.Searches.RunAsync(() => solve(progress => told.Writer.TryWrite(progress)), cancellation);

        // Whether it ends or never begins, the reader below comes to an end.
        _ = solving.ContinueWith(_ => told.Writer.Complete(), CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
        await foreach (var progress in told.Reader.ReadAllAsync(CancellationToken.None))
        {
            await stream.WriteAsync(new RunSchemeResponse { Progress = new SchemeProgress { Doing = progress.Doing, Done = progress.Done, Of = progress.Of } }, cancellation);
        }

        return await solving;
    }

    private async Task SendAgainAsync(Owner owner, SchemeRun run, IReadOnlyCollection<string> formats, IServerStreamWriter<RunSchemeResponse> stream, CancellationToken cancellation)
    {
        var (_, content) = Find(owner, run.Run);
        var result = SchemeResult.Parser.ParseFrom(content.Answer);
        result.Summary.Run = run.Run;
        await SendAsync(result, stream, cancellation);
        if (formats.Count > 0)
        {
            // Files are not kept: they are written anew from what the run was made from.
            var asked = RunSchemeRequest.Parser.ParseFrom(content.Request);
            var again = await TellingAsync(tell => SchemeRunner.Solve(SchemePaints.Read(asked.Text), asked, content.Shelves, tell, cancellation), stream, cancellation);
            again.Result.Summary.Run = run.Run;
            await SendAsync(Files(again, formats, run.Made), stream, cancellation);
        }
    }

    // What makes the run, without what is asked of it besides.
    private static RunSchemeRequest Asked(RunSchemeRequest request)
    {
        var asked = request.Clone();
        asked.Formats.Clear();
        asked.RequestId = "";
        return asked;
    }

    private static IEnumerable<ReportFile> Files(SchemeAnswer answer, IReadOnlyCollection<string> formats, DateTimeOffset made) =>
        formats.Contains(JsonFormat)
            ? SchemeFiles.Write(answer.Plan, formats, made, answer.Elsewhere).Append(new ReportFile("scheme.json", System.Text.Encoding.UTF8.GetBytes(Json.Format(answer.Result) + "\n")))
            : SchemeFiles.Write(answer.Plan, formats, made, answer.Elsewhere);

    private static async Task SendAsync(SchemeResult result, IServerStreamWriter<RunSchemeResponse> stream, CancellationToken cancellation)
    {
        foreach (var area in result.Areas)
        {
            await stream.WriteAsync(new RunSchemeResponse { Area = area }, cancellation);
        }

        await stream.WriteAsync(new RunSchemeResponse { Summary = result.Summary }, cancellation);
    }

    private static async Task SendAsync(IEnumerable<ReportFile> files, IServerStreamWriter<RunSchemeResponse> stream, CancellationToken cancellation)
    {
        foreach (var file in files)
        {
            await SendAsync(file, stream, cancellation);
        }
    }

    private static async Task SendAsync(ReportFile file, IServerStreamWriter<RunSchemeResponse> stream, CancellationToken cancellation)
    {
        var sent = 0;
        do
        {
            var length = Math.Min(PieceBytes, file.Content.Length - sent);
            var piece = new FilePiece { Name = file.Name, Content = ByteString.CopyFrom(file.Content, sent, length), Last = sent + length == file.Content.Length };
            await stream.WriteAsync(new RunSchemeResponse { File = piece }, cancellation);
            sent += length;
        }
        while (sent < file.Content.Length);
    }

    private static void CheckFormats(IReadOnlyList<string> formats)
    {
        string[] known = [.. SchemeFiles.Formats, JsonFormat];
        var violations = new Violations();
        for (var i = 0; i < formats.Count; i++)
        {
            if (!known.Contains(formats[i]))
            {
                violations.Add($"formats[{i}]", $"'{Shown.Of(formats[i])}' is no format of cards; use {string.Join(", ", known)}.");
            }
        }

        violations.ThrowIfAny();
    }

    private (SchemeRun Run, SchemeRunContent Content) Find(Owner owner, long run) =>
        runs.Find(owner, run) ?? throw new Refusal(StatusCode.NotFound, "run", $"There is no scheme run {run}; list them to see their numbers.");

    private static V1.SchemeRun Write(SchemeRun run) => new()
    {
        Run = run.Run, Name = run.Name, Made = run.Made.ToString("O", System.Globalization.CultureInfo.InvariantCulture), EngineVersion = run.EngineVersion, Digest = run.Digest,
    };
}
