namespace MixEngine.Storage;

/// <summary>A colour as it was entered.</summary>
/// <param name="Text">"#5a6b3c", "lab:40,-12,20", "xyz:18,20,9" or "spectrum:400=0.05,410=0.06,...": numbers with all their digits.</param>
/// <param name="Illuminant">Name of the light under which a Lab or XYZ holds, such as "D65".</param>
/// <param name="ObserverDegrees">The eye for which it holds: 2 or 10 degrees.</param>
public sealed record StoredColor(string Text, string Illuminant, int ObserverDegrees);
