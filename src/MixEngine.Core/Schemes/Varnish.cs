namespace MixEngine.Core;

/// <summary>The clear coat over everything.</summary>
/// <param name="Finish">How it dries.</param>
/// <param name="Solvent">Whether it is thinned with a solvent rather than with water.</param>
public sealed record Varnish(Finish Finish, bool Solvent = false);
