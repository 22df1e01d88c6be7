using MixEngine.Cli;

return await CommandLine.RunAsync(args);
