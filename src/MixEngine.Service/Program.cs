using System.Collections;
using MixEngine.Service.Access;
using MixEngine.Service.Data;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.Storage;

var environment = Environment.GetEnvironmentVariables().Cast<DictionaryEntry>().ToDictionary(variable => (string)variable.Key, variable => (string?)variable.Value ?? "");
if (args is [DataCommands.Word, .. var rest])
{
    return new DataCommands(environment, Console.Out, Console.Error).Invoke(rest);
}

if (args is [KeyCommands.Word, .. var words])
{
    return new KeyCommands(environment, TimeProvider.System, Console.Out, Console.Error).Invoke(words);
}

return await new CommandLine(environment, Run).InvokeAsync(args, Console.Error);

static async Task<int> Run(ServiceOptions options)
{
    try
    {
        var service = await RunningService.StartAsync(options, ServiceLogging.ToErrorStream(options.Log));
        if (service is null)
        {
            await Console.Error.WriteLineAsync($"Another service answers on '{options.Socket.Path}' already; ask that one, or name another --socket.");
            return ExitCodes.AlreadyRunning;
        }

        await using (service)
        {
            await service.WaitForShutdownAsync();
        }

        return ExitCodes.Ended;
    }
    catch (OperationCanceledException)
    {
        return ExitCodes.Ended;
    }
    catch (Exception fault) when (fault is UnusableDatabaseException or NoAccessKeyException or IOException or UnauthorizedAccessException)
    {
        await Console.Error.WriteLineAsync(fault.Message);
        return ExitCodes.Refused;
    }
}
