namespace MixEngine.Colorimetry;

/// <summary>A reflectance made up for a colour.</summary>
/// <param name="Reflectance">Strictly between 0 and 1 in every band.</param>
/// <param name="Achieved">The colour that it really has.</param>
/// <param name="Exact">Whether that is the colour asked for, to within 0.001 dE00.</param>
/// <param name="DeltaE00">The CIEDE2000 difference between the two.</param>
public sealed record ReconstructedReflectance(Reflectance Reflectance, Xyz Achieved, bool Exact, double DeltaE00);
