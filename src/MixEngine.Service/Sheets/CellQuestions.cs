using Grpc.Core;
using MixEngine.Service.Calls;
using MixEngine.Service.Endpoints;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.V1;

namespace MixEngine.Service.Sheets;

/// <summary>Answers the questions of a sheet's cells, each by itself.</summary>
internal sealed class CellQuestions(MixingEndpoint mixing, ILogger logger)
{
    /// <summary>Most questions of one call.</summary>
    public const int Most = 5000;

    /// <summary>Most characters of a question's key.</summary>
    public const int LongestKey = 200;

    /// <summary>Until then questions are begun.</summary>
    public static readonly TimeSpan Begins = TimeSpan.FromSeconds(20);

    // A search begun late still has this long.
    private static readonly TimeSpan Ends = TimeSpan.FromSeconds(25);

    /// <summary>Refuses what is no list of questions.</summary>
    public static void Check(IReadOnlyList<CellQuestion> questions)
    {
        var violations = new Violations();
        if (questions.Count > Most)
        {
            violations.Add("questions", $"{questions.Count} questions are asked; one call answers at most {Most}. Split them over several calls.");
        }

        foreach (var (i, question) in questions.Index().Where(each => each.Item.Key.Length > LongestKey))
        {
            violations.Add($"questions[{i}].key", $"'{Shown.Of(question.Key)}' has {question.Key.Length} characters; a key may have {LongestKey}.");
        }

        violations.ThrowIfAny();
    }

    /// <summary>One answer or one error for each question, in their order. Every processor answers.</summary>
    public async Task<CellAnswer[]> AnswerAsync(IReadOnlyList<CellQuestion> questions, ServerCallContext context)
    {
        var start = DateTime.UtcNow;
        var begins = start + Begins;
        var ends = start + Ends < context.Deadline ? start + Ends : context.Deadline;
        using var late = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        late.CancelAfter(ends - start);
        var call = new DeadlineCallContext(context, ends, late.Token);

        var answers = new CellAnswer[questions.Count];
        var parallel = new ParallelOptions { CancellationToken = context.CancellationToken, MaxDegreeOfParallelism = Environment.ProcessorCount };
        await Parallel.ForAsync(0, questions.Count, parallel, async (i, _) =>
            answers[i] = DateTime.UtcNow < begins ? await AnswerAsync(questions[i], call) : Failed(questions[i], NotInTime));
        return answers;
    }

    private static Google.Rpc.Status NotInTime => new()
    {
        Code = (int)StatusCode.DeadlineExceeded,
        Message = FormattableString.Invariant($"Not answered within {Begins.TotalSeconds} seconds, among all that was asked at once. Ask again."),
    };

    private async Task<CellAnswer> AnswerAsync(CellQuestion question, ServerCallContext call)
    {
        try
        {
            return question.QuestionCase switch
            {
                CellQuestion.QuestionOneofCase.Predict => new CellAnswer { Key = question.Key, Predict = await mixing.Predict(question.Predict, call) },
                CellQuestion.QuestionOneofCase.Ramp => new CellAnswer { Key = question.Key, Ramp = await mixing.Ramp(question.Ramp, call) },
                CellQuestion.QuestionOneofCase.Match => new CellAnswer { Key = question.Key, Match = await mixing.Match(question.Match, call) },
                CellQuestion.QuestionOneofCase.Glaze => new CellAnswer { Key = question.Key, Glaze = await mixing.Glaze(question.Glaze, call) },
                CellQuestion.QuestionOneofCase.Difference => new CellAnswer { Key = question.Key, Difference = ColorQuestions.Answer(question.Difference) },
                CellQuestion.QuestionOneofCase.Describe => new CellAnswer { Key = question.Key, Describe = ColorQuestions.Answer(question.Describe) },
                _ => throw new Refusal(StatusCode.InvalidArgument, "question", "Nothing is asked; give predict, ramp, match, glaze, difference or describe."),
            };
        }
        catch (Refusal refusal)
        {
            return Failed(question, refusal.ToStatus());
        }
        catch (OperationCanceledException) when (call.CancellationToken.IsCancellationRequested)
        {
            return Failed(question, NotInTime);
        }
        catch (Exception fault)
        {
            // One question's misfortune is not that of thousands of others.
            var status = ErrorInterceptor.Unexpected(logger, fault, call.Method);
            return Failed(question, new Google.Rpc.Status { Code = (int)status.StatusCode, Message = status.Detail });
        }
    }

    private static CellAnswer Failed(CellQuestion question, Google.Rpc.Status status) => new() { Key = question.Key, Error = status };
}
