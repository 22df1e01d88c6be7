using System.CommandLine;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Tables;
using MixEngine.Cli.Terminal;

namespace MixEngine.Cli.Commands;

/// <summary>How an answer is given: to a person, as JSON, or as a table.</summary>
/// <typeparam name="TAnswer">The response message.</typeparam>
/// <param name="Page">Writes it for a person.</param>
/// <param name="Table">Puts it into rows.</param>
internal sealed record Form<TAnswer>(Action<Page, TAnswer> Page, Func<TAnswer, CsvTable> Table) where TAnswer : IMessage
{
    /// <summary>What the command says to a script.</summary>
    public Func<TAnswer, int> ExitCode { get; init; } = _ => Cli.ExitCode.Answered;
}

/// <summary>Asks one question and gives the answer in the form that was asked for.</summary>
internal static class Answering
{
    private static readonly JsonFormatter.Settings Json = JsonFormatter.Settings.Default.WithFormatDefaultValues(true);

    public static ServiceConnection Connect(ParseResult parsed, CancellationToken cancel)
    {
        ServerAddress? named = parsed.GetValue(CommonOptions.Server) is { } text ? ServerAddress.Parse(text) : null;
        TimeSpan? timeout = parsed.GetValue(CommonOptions.Timeout) is { } seconds ? TimeSpan.FromSeconds(Math.Min(seconds, 1e8)) : null;
        return new ServiceConnection(named, timeout, cancel);
    }

    public static async Task<int> AnswerAsync<TAnswer>(
        this ParseResult parsed,
        Func<ServiceConnection, CallOptions, AsyncUnaryCall<TAnswer>> ask,
        Form<TAnswer> form,
        CancellationToken cancel) where TAnswer : IMessage
    {
        using ServiceConnection service = Connect(parsed, cancel);
        TAnswer answer = await service.AskAsync(options => ask(service, options));
        Write(parsed, form, answer);
        return form.ExitCode(answer);
    }

    public static void Write<TAnswer>(ParseResult parsed, Form<TAnswer> form, TAnswer answer) where TAnswer : IMessage
    {
        if (parsed.GetValue(CommonOptions.Json))
        {
            // One line in a pipe, so that answers can be counted and read line by line; indented before a person's eyes.
            var formatter = new JsonFormatter(Console.IsOutputRedirected ? Json : Json.WithIndentation());
            Console.Out.WriteLine(formatter.Format(answer));
        }
        else if (parsed.GetValue(CommonOptions.Csv))
        {
            form.Table(answer).Write(Console.Out);
        }
        else
        {
            form.Page(new Page(Console.Out, Palette.OfStandardOutput), answer);
        }
    }
}
