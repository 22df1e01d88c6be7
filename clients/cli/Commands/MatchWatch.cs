using System.CommandLine;
using System.Diagnostics;
using Grpc.Core;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>A match that is watched: a bar where it takes long, and the best so far when its user stops it.</summary>
internal static class MatchWatch
{
    /// <summary>A search that is done by then needs no bar.</summary>
    private static readonly TimeSpan Blink = TimeSpan.FromMilliseconds(500);

    public static async Task<int> AnswerAsync(ParseResult parsed, MatchRequest request, Form<MatchResponse> form, CancellationToken cancel)
    {
        MatchResponse? soFar = null;
        try
        {
            using ServiceConnection service = Answering.Connect(parsed, cancel);
            MatchResponse answer = await service.AskAsync(options => WatchAsync(service.Mixing.MatchWithProgress(new MatchWithProgressRequest { Match = request }, options), best => soFar = best));
            Answering.Write(parsed, form, answer);
            return form.ExitCode(answer);
        }
        catch (Exception e) when (soFar is not null && cancel.IsCancellationRequested && e is OperationCanceledException or RpcException { StatusCode: StatusCode.Cancelled })
        {
            Answering.Write(parsed, form, soFar!);
            Console.Error.WriteLine("mixengine: Stopped. This is the best so far, and it is not proven.");
            return ExitCode.Interrupted;
        }
    }

    // The last message is the answer.
    private static async Task<MatchResponse> WatchAsync(AsyncServerStreamingCall<MatchWithProgressResponse> call, Action<MatchResponse> keep)
    {
        using (call)
        {
            using var bar = new ProgressLine(Console.Error, isPiped: false);
            long start = Stopwatch.GetTimestamp();
            MatchResponse? answer = null;
            while (await call.ResponseStream.MoveNext())
            {
                if (call.ResponseStream.Current.PartCase == MatchWithProgressResponse.PartOneofCase.Answer)
                {
                    answer = call.ResponseStream.Current.Answer;
                }
                else if (call.ResponseStream.Current.Progress is { } progress)
                {
                    keep(progress.SoFar);

                    // A script gets the answer alone.
                    if (!Console.IsErrorRedirected && Stopwatch.GetElapsedTime(start) >= Blink)
                    {
                        bar.Show($"{progress.Doing}, {Numerals.Difference(progress.SoFar.Matches[0].DeltaE00)} away", (int)(100 * progress.Done), 100);
                    }
                }
            }
            return answer ?? throw new RpcException(new Status(StatusCode.DataLoss, "The service ended its answer before it was complete."));
        }
    }
}
