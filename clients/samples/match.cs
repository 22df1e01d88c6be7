// Asks for a colour from a single C# file.   dotnet run match.cs '#5a6b3c' [http://127.0.0.1:7401]
#:package MixEngine.Client@0.1.0
#:property RestoreAdditionalProjectSources=$(MIXENGINE_PACKAGES)
#:property PublishAot=false
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Client;
using MixEngine.V1;

var target = args[0];
var coast = (string)AppContext.GetData("EntryPointFileDirectoryPath")! + "/coast.csv";
var address = args.Length > 1 ? args[1] : Given("ADDRESS") ?? "http://127.0.0.1:7401";
try
{
    using var channel = ServiceChannel.To(address, Given("KEY"), authority: Given("CA"));
    await new Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { Shelf = "samples", FileName = "coast.csv", Content = ByteString.CopyFrom(File.ReadAllBytes(coast)) });
    var answer = await new Mixing.MixingClient(channel).MatchAsync(new MatchRequest { Shelf = "samples", Target = new ColorInput { Text = target } });
    var best = answer.Matches[0];
    Console.WriteLine(FormattableString.Invariant($"{best.Recipe.Text} gives {best.Color.Hex}, {best.Color.Words}, {best.DeltaE00:0.00} from the target"));
    return 0;
}
catch (RpcException refusal)
{
    Console.Error.WriteLine(refusal.Status.Detail);
    return 1;
}
catch (ArgumentException refusal)
{
    Console.Error.WriteLine(refusal.Message);
    return 1;
}

static string? Given(string name) => Environment.GetEnvironmentVariable("MIXENGINE_" + name) is { Length: > 0 } value ? value : null;
