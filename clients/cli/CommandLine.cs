using System.CommandLine;
using System.CommandLine.Invocation;
using System.Text;
using Grpc.Core;
using MixEngine.Cli.Commands;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Terminal;

namespace MixEngine.Cli;

/// <summary>The whole command: what was typed, the question it stands for, and how it ends.</summary>
internal static class CommandLine
{
    private const string Description = """
        What your own paints do when mixed and layered.

        Begin with: mixengine demo
        Then with your own paints: mixengine shelf import my-paints.csv

        Exit codes: 0 answered, 1 refused (something you gave must be changed), 2 cannot be reached (the nearest is printed), 3 no service,
        130 stopped by Ctrl-C (of a match the best so far is printed).
        """;

    public static async Task<int> RunAsync(string[] arguments)
    {
        // UTF-8 without a mark before it, through a pipe as on a terminal.
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

        // .NET greets a terminal that it knows with escape sequences for a keypad, NO_COLOR or not. What TERM says of colours has been read by then.
        _ = Palette.OfStandardOutput;
        Environment.SetEnvironmentVariable("TERM", "dumb");
        return await RunAsync(arguments, CancellationToken.None);
    }

    /// <summary>Runs one command as it would be typed.</summary>
    public static async Task<int> RunAsync(string[] arguments, CancellationToken cancel)
    {
        ParseResult parsed = Root().Parse(arguments, new ParserConfiguration { ResponseFileTokenReplacer = null });
        if (parsed.Action is ParseErrorAction || (parsed.Errors.Count > 0 && parsed.Action is not System.CommandLine.Help.HelpAction))
        {
            return Say(ExitCode.Refused, Misreading.Lines(parsed));
        }

        if (parsed.GetValue(CommonOptions.Json) && parsed.GetValue(CommonOptions.Csv))
        {
            return Say(ExitCode.Refused, ["--json and --csv: an answer has one form. Leave one of them out."]);
        }

        try
        {
            var invocation = new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = TimeSpan.FromSeconds(10) };
            return await parsed.InvokeAsync(invocation, cancel);
        }
        catch (Refusal e)
        {
            return Say(ExitCode.Refused, e.Message.Split('\n'));
        }
        catch (NoService e)
        {
            return Say(ExitCode.NoService, e.Message.Split('\n'));
        }
        catch (OperationCanceledException)
        {
            return Say(ExitCode.Interrupted, ["Stopped."]);
        }
        catch (RpcException e) when (e.StatusCode == StatusCode.Cancelled)
        {
            return Say(ExitCode.Interrupted, ["Stopped."]);
        }
        catch (RpcException e)
        {
            return Say(ServiceAnswer.ExitCodeOf(e.StatusCode), ServiceAnswer.Lines(e));
        }
        catch (IOException e) when (Console.IsOutputRedirected)
        {
            // Whoever read our output has closed it (head), or the disk is full.
            return Say(ExitCode.Refused, [$"The answer could not be written: {e.Message}"]);
        }
    }

    private static RootCommand Root()
    {
        var root = new RootCommand(Description)
        {
            DemoCommand.Create(),
            ShelfCommand.Create(),
            PaintCommand.Create(),
            SwatchCommand.Create(),
            PredictCommand.Create(),
            RampCommand.Create(),
            MatchCommand.Create(),
            GlazeCommand.Create(),
            CoverCommand.Create(),
            LookCommands.Finish(),
            LookCommands.Light(),
            LookCommands.Eyes(),
            SchemeCommand.Create(),
            MixCommand.Create(),
            SheetCommand.Create(),
            DataCommand.Create(),
            ServeCommand.Create(),
            KeyCommand.Create(),
        };
        foreach (Option option in CommonOptions.All)
        {
            root.Add(option);
        }
        return root;
    }

    /// <summary>Faults go to standard error: what is read from standard output is an answer or nothing.</summary>
    private static int Say(int exitCode, IEnumerable<string> lines)
    {
        string before = "mixengine: ";
        foreach (string line in lines.SelectMany(line => line.Split('\n')))
        {
            Console.Error.WriteLine(before + Page.Plain(line));
            before = "  ";
        }
        return exitCode;
    }
}
