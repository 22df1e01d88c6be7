namespace MixEngine.Service.Options;

/// <summary>What was said of a setting.</summary>
/// <param name="Text">As it was written.</param>
/// <param name="Where">Where: "--http", "MIXENGINE_HTTP", or "/etc/mixengine.toml, line 4, http".</param>
/// <param name="Folder">The folder in which a relative path that stands there begins.</param>
internal sealed record Said(string Text, string Where, string Folder);
