using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace MixEngine.Contracts.Tests;

/// <summary>v1 only grows: buf compares the contract with that of the last release, protos/released.</summary>
public class CompatibilityTests
{
    private static readonly string Configuration = Path.Combine(Repository.Root, "protos", "buf.yaml");

    private static readonly Dictionary<string, Action<FileDescriptorProto>> Breakages = new()
    {
        ["a field's number"] = file => Field(file, "MatchRequest", "drops").Number = 77,
        ["a field's type"] = file => Field(file, "MatchRequest", "drops").Type = FieldDescriptorProto.Types.Type.Double,
        ["a field's name in JSON"] = file => Field(file, "MatchRequest", "drops").JsonName = "mostDrops",
        ["a list instead of one"] = file => Field(file, "PredictResponse", "color").Label = FieldDescriptorProto.Types.Label.Repeated,
        ["a field taken away"] = file => Message(file, "MatchResponse").Field.RemoveAt(0),
        ["a call taken away"] = file => file.Service[0].Method.RemoveAt(0),
        ["a call that streams"] = file => file.Service[0].Method[0].ServerStreaming = true,
        ["a call that may no longer be repeated"] = file => file.Service[0].Method[0].Options.ClearIdempotencyLevel(),
    };

    public static TheoryData<string> Changes => [.. Breakages.Keys];

    [Fact]
    public async Task The_contract_breaks_no_client_of_the_last_release()
    {
        var (exitCode, output) = await Tools.RunAsync("buf", "breaking", Contract.BuiltFile, "--against", Contract.ReleasedFile, "--config", Configuration);
        Assert.True(exitCode == 0, output);
    }

    [Fact]
    public async Task The_contract_keeps_to_the_rules_of_its_language()
    {
        var (exitCode, output) = await Tools.RunAsync("buf", "lint", Contract.BuiltFile, "--config", Configuration);
        Assert.True(exitCode == 0, output);
    }

    /// <summary>The check can fail: each of these changes of what was released is refused.</summary>
    [Theory]
    [MemberData(nameof(Changes))]
    public async Task A_change_that_breaks_clients_is_found(string change)
    {
        var set = FileDescriptorSet.Parser.ParseFrom(await File.ReadAllBytesAsync(Contract.ReleasedFile, TestContext.Current.CancellationToken));
        Breakages[change](set.File.Single(file => file.Name == "mixengine/v1/mixing.proto"));
        var changed = Path.Combine(Directory.CreateTempSubdirectory("mx-").FullName, "changed.binpb");
        try
        {
            await File.WriteAllBytesAsync(changed, set.ToByteArray(), TestContext.Current.CancellationToken);
            var (exitCode, output) = await Tools.RunAsync("buf", "breaking", changed, "--against", Contract.ReleasedFile, "--config", Configuration);
            Assert.True(exitCode == 100, $"{change} was not found: {output}");
            Assert.Contains("mixengine/v1/mixing.proto", output, StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(Path.GetDirectoryName(changed)!, recursive: true);
        }
    }

    private static DescriptorProto Message(FileDescriptorProto file, string name) => file.MessageType.Single(message => message.Name == name);

    private static FieldDescriptorProto Field(FileDescriptorProto file, string message, string name) => Message(file, message).Field.Single(one => one.Name == name);
}
