using Google.Api;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace MixEngine.Contracts.Tests;

/// <summary>The contract as protoc described it when it was built, comments included.</summary>
internal static class Contract
{
    /// <summary>The descriptor set's file, beside the assembly of the same build.</summary>
    public static string BuiltFile { get; } = Path.Combine(Repository.Built("MixEngine.Contracts"), "mixengine-v1.binpb");

    /// <summary>The same of the last release.</summary>
    public static string ReleasedFile { get; } = Path.Combine(Repository.Root, "protos", "released", "mixengine-v1.binpb");

    /// <summary>Our own files, in the order of their names.</summary>
    public static IReadOnlyList<FileDescriptor> Files { get; } = Read(File.ReadAllBytes(BuiltFile));

    public static IEnumerable<ServiceDescriptor> Services => Files.SelectMany(file => file.Services);

    public static IEnumerable<MessageDescriptor> Messages => Files.SelectMany(file => file.MessageTypes);

    /// <summary>The HTTP method and path of a call; null: gRPC alone.</summary>
    public static (string Verb, string Path)? HttpOf(MethodDescriptor method) => method.GetOptions()?.GetExtension(AnnotationsExtensions.Http) switch
    {
        { PatternCase: HttpRule.PatternOneofCase.Get } rule => ("GET", rule.Get),
        { PatternCase: HttpRule.PatternOneofCase.Post } rule => ("POST", rule.Post),
        { PatternCase: HttpRule.PatternOneofCase.Put } rule => ("PUT", rule.Put),
        { PatternCase: HttpRule.PatternOneofCase.Delete } rule => ("DELETE", rule.Delete),
        _ => null,
    };

    /// <summary>What stands above it in the proto file, on one line; empty: nothing.</summary>
    public static string CommentOf(DescriptorDeclaration? declaration) =>
        string.Join(' ', (declaration?.LeadingComments ?? "").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));

    private static FileDescriptor[] Read(byte[] set)
    {
        var files = FileDescriptorSet.Parser.ParseFrom(set).File.Select(file => file.ToByteString());
        var registry = new ExtensionRegistry { AnnotationsExtensions.Http };
        return [.. FileDescriptor.BuildFromByteStrings(files, registry).Where(file => file.Package == "mixengine.v1").OrderBy(file => file.Name, StringComparer.Ordinal)];
    }
}
