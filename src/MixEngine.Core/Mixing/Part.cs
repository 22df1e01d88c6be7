namespace MixEngine.Core;

/// <summary>So many parts of one paint. A part is a volume; in whole drops it is a drop.</summary>
public readonly record struct Part(Paint Paint, double Parts);
