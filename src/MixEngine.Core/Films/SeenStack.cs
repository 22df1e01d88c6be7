using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Films with the surface through which they are seen.</summary>
/// <param name="Films">The films, surface left out.</param>
/// <param name="Surface">The surface in which the topmost paint was measured.</param>
/// <param name="Finish">Its stated finish, where there is one.</param>
public sealed record SeenStack(FilmStack Films, SurfaceReflection Surface, Finish? Finish)
{
    /// <summary>Looks at it.</summary>
    public Appearance Under(View view) => view.Through(view.SurfaceOver(Surface, Finish), Films.InternalReflectance);

    /// <summary>The colour alone of <see cref="Under"/>.</summary>
    public Lab LabUnder(View view) => view.LabThrough(view.SurfaceOver(Surface, Finish), Films.InternalReflectance);
}
