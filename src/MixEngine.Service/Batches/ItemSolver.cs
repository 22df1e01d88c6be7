using System.Data.Common;
using Grpc.Core;
using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Service.Calls;
using MixEngine.Service.Computing;
using MixEngine.Service.Endpoints;
using MixEngine.Service.Mapping;
using MixEngine.Service.Options;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Service.Telemetry;
using MixEngine.Storage;
using MixEngine.V1;
using View = MixEngine.V1.View;

namespace MixEngine.Service.Batches;

/// <summary>Answers one item by the very endpoint that answers it alone; what is wrong with it becomes its answer.</summary>
internal sealed class ItemSolver(LoadedShelves shelves, Workshop workshop, Database database, DeadlineOptions deadlines, TimeProvider clock, ILogger<ItemSolver> logger)
{
    private readonly MixingEndpoint _mixing = new(shelves, workshop);

    /// <summary>The answer, and whether it is final: a fault of ours, or time that ran out, may not happen again.</summary>
    /// <exception cref="OperationCanceledException">The caller of the batch gave up.</exception>
    public async Task<(BatchAnswer Answer, bool Final)> SolveAsync(BatchItem item, View? view, ServerCallContext call)
    {
        var question = item.QuestionCase.ToString();
        using var span = Measures.BeginItem(question);
        var start = clock.GetTimestamp();
        var solved = await SolveInTimeAsync(item, view, call);
        Measures.Solved(question, (StatusCode)(solved.Answer.Error?.Code ?? 0), clock.GetElapsedTime(start));
        return solved;
    }

    private async Task<(BatchAnswer Answer, bool Final)> SolveInTimeAsync(BatchItem item, View? view, ServerCallContext call)
    {
        // Each item has the time that it would have alone.
        using var context = new DeadlineCallContext(call, deadlines.WhereNoneIsGiven, CancellationToken.None, clock);
        try
        {
            return (await AnswerAsync(item, view, context), true);
        }
        catch (Refusal refusal)
        {
            return (Refused(item.Key, refusal.ToStatus()), true);
        }
        catch (Exception) when (call.CancellationToken.IsCancellationRequested)
        {
            throw new OperationCanceledException(call.CancellationToken);
        }
        catch (OperationCanceledException)
        {
            return (Refused(item.Key, Failed(StatusCode.DeadlineExceeded, FormattableString.Invariant($"No answer within {deadlines.WhereNoneIsGiven.TotalSeconds} seconds. Ask for less, or ask it alone with a later deadline."))), false);
        }
        catch (DbException fault) when (database.TroubleOf(fault) is { } trouble)
        {
            Log.DatabaseTrouble(logger, fault, call.Method);
            return (Refused(item.Key, Failed(ErrorInterceptor.CodeOf(trouble), trouble.Words)), false);
        }
        catch (Exception fault)
        {
            var reference = Guid.NewGuid().ToString("N")[..12];
            Log.Unexpected(logger, fault, call.Method, reference);
            return (Refused(item.Key, Failed(StatusCode.Internal, $"The service failed; the item need not be at fault. Its log tells more under the reference {reference}.")), false);
        }
    }

    /// <summary>An answer that says why there is none.</summary>
    public static BatchAnswer Refused(string key, Google.Rpc.Status status) => new() { Key = key, Error = status };

    private async Task<BatchAnswer> AnswerAsync(BatchItem item, View? view, ServerCallContext context) => item.QuestionCase switch
    {
        BatchItem.QuestionOneofCase.Predict => new BatchAnswer { Key = item.Key, Predict = await _mixing.Predict(item.Predict, context) },
        BatchItem.QuestionOneofCase.Ramp => new BatchAnswer { Key = item.Key, Ramp = await _mixing.Ramp(item.Ramp, context) },
        BatchItem.QuestionOneofCase.Match => new BatchAnswer { Key = item.Key, Match = await _mixing.Match(item.Match, context) },
        BatchItem.QuestionOneofCase.Glaze => new BatchAnswer { Key = item.Key, Glaze = await _mixing.Glaze(item.Glaze, context) },
        BatchItem.QuestionOneofCase.Cover => new BatchAnswer { Key = item.Key, Cover = await _mixing.Cover(item.Cover, context) },
        BatchItem.QuestionOneofCase.Difference => new BatchAnswer { Key = item.Key, Difference = Difference(item.Difference, view) },
        BatchItem.QuestionOneofCase.Words => new BatchAnswer { Key = item.Key, Words = Words(item.Words, view) },
        _ => throw new Refusal(StatusCode.InvalidArgument, "question", "Nothing is asked; give one of predict, ramp, match, glaze, cover, difference and words."),
    };

    private static DifferenceResponse Difference(DifferenceRequest request, View? view)
    {
        var violations = new Violations();
        var condition = ViewMapping.Read(view, violations).Condition;
        var (first, second) = (LabOf(request.First, "first", condition, violations), LabOf(request.Second, "second", condition, violations));
        violations.ThrowIfAny();
        var shift = ColorShift.Between(first, second);
        return new DifferenceResponse { DeltaE00 = shift.DeltaE00, Words = shift.Words };
    }

    private static WordsResponse Words(WordsRequest request, View? view)
    {
        var violations = new Violations();
        var condition = ViewMapping.Read(view, violations).Condition;
        var lab = LabOf(request.Color, "color", condition, violations);
        violations.ThrowIfAny();
        return new WordsResponse { Color = ColorMapping.Write(lab, condition) };
    }

    private static Colorimetry.Lab LabOf(ColorInput? input, string field, ViewingCondition condition, Violations violations)
    {
        var color = ColorInputMapping.Read(input, field, condition, violations);
        return color is null ? default : MatchMapping.TargetOf(color).Under(condition);
    }

    private static Google.Rpc.Status Failed(StatusCode code, string message) => new() { Code = (int)code, Message = message };
}
