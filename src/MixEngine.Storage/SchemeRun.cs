namespace MixEngine.Storage;

/// <summary>A scheme that was solved, with all that is needed to solve it again.</summary>
/// <param name="Run">Its number.</param>
/// <param name="Name">The scheme's name.</param>
/// <param name="Made">When, UTC.</param>
/// <param name="EngineVersion">The program that solved it.</param>
/// <param name="Digest">SHA-256 of its answer, in hexadecimal digits.</param>
public sealed record SchemeRun(long Run, string Name, DateTimeOffset Made, string EngineVersion, string Digest);

/// <summary>What a run was made from, and what came of it.</summary>
/// <param name="Request">The request as it was sent.</param>
/// <param name="Shelves">The shelves as they were, by name.</param>
/// <param name="Answer">The answer.</param>
public sealed record SchemeRunContent(byte[] Request, IReadOnlyDictionary<string, StoredShelf> Shelves, byte[] Answer);
