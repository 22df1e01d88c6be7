using Google.Rpc;
using Grpc.Core;

namespace MixEngine.Cli;

/// <summary>What the service says instead of an answer, in words for whoever typed the command.</summary>
internal static class ServiceAnswer
{
    private const int MostViolations = 50;

    /// <summary>What the contract's fields are called on the command line.</summary>
    private static readonly (string Field, string Said)[] Names =
    [
        ("shelf", "--shelf"),
        ("view.illuminant", "--light"),
        ("view.observer_degrees", "--observer"),
        ("view.finish", "--finish"),
        ("steps", "--steps"),
        ("drops", "--drops"),
        ("paints", "--paints"),
        ("must", "--must"),
        ("must_not", "--without"),
        ("base", "--base"),
        ("medium", "--medium"),
        ("lights", "--lamp"),
        ("light_rule", "--lamp"),
        ("tolerance", "--tolerance"),
        ("answers", "--answers"),
        ("target.spectrum", "--spectrum"),
        ("coats", "--coats"),
        ("medium_parts", "--medium"),
        ("water_parts", "--water"),
        ("film_thickness_um", "--film"),
        ("over", "--over"),
        ("recipe", "the recipe"),
        ("through", "the paints"),
        ("target", "the colour"),
        ("paint", "the paint"),
        ("content", "the file"),
        ("file_name", "the file"),
        ("format", "the file"),
        ("formats", "--formats"),
        ("other_shelf", "--other-shelf"),
        ("run", "the run"),
        ("mix.parts", "the bottles"),
        ("mix.swatch", "--swatch"),
        ("mix.run", "--run"),
        ("text", "the scheme"),
        ("scale", "--scale"),
        ("count", "--count"),
        ("id", "the swatch"),
        ("swatch.id", "the swatch"),
        ("swatch.recipe", "the recipe"),
        ("swatch.color.illuminant", "--light"),
        ("swatch.color.observer_degrees", "--observer"),
        ("swatch.color", "the colour"),
        ("swatch.backing", "--over"),
        ("swatch.film", "--film"),
        ("swatch.thickness_um", "--thickness"),
        ("swatch.coats", "--coats"),
        ("swatch.source", "--source"),
        ("swatch.specular", "--specular"),
        ("swatch.finish", "--finish"),
        ("swatch.date", "--date"),
        ("swatch.note", "--note"),
    ];

    /// <summary>1 where something in the question must be changed, 3 where the service itself failed.</summary>
    public static int ExitCodeOf(StatusCode code) => code switch
    {
        StatusCode.InvalidArgument or StatusCode.NotFound or StatusCode.AlreadyExists or StatusCode.FailedPrecondition
            or StatusCode.OutOfRange or StatusCode.Aborted or StatusCode.ResourceExhausted or StatusCode.PermissionDenied
            or StatusCode.Unauthenticated => ExitCode.Refused,
        StatusCode.Cancelled => ExitCode.Interrupted,
        _ => ExitCode.NoService,
    };

    public static IEnumerable<string> Lines(RpcException e)
    {
        switch (e.StatusCode)
        {
            case StatusCode.DeadlineExceeded:
                return ["No answer came in the time given. Give it longer (--timeout), or ask for less: fewer paints, drops or steps."];
            case StatusCode.Unimplemented:
                return ["What answers there does not know this question: it is another program, or an older version of the service.",
                    "Your own local service: end its process (MixEngine.Service) and ask again; it is then started anew. Another one: look at --server."];
        }

        string message = e.Status.Detail;
        BadRequest? bad = e.GetRpcStatus()?.GetDetail<BadRequest>();
        if (bad is null || bad.FieldViolations.Count == 0)
        {
            return [ExitCodeOf(e.StatusCode) == ExitCode.NoService ? $"The service failed: {message}" : message];
        }

        // A message that only repeats the one violation is not said twice.
        var lines = new List<string>();
        if (!bad.FieldViolations.Any(violation => message.Contains(violation.Description, StringComparison.Ordinal)))
        {
            lines.Add(message);
        }
        string indent = lines.Count > 0 ? "  " : "";
        lines.AddRange(bad.FieldViolations.Take(MostViolations).Select(violation => Line(violation, indent)));
        if (bad.FieldViolations.Count > MostViolations)
        {
            lines.Add($"  ... and {bad.FieldViolations.Count - MostViolations} more.");
        }
        return lines;
    }

    private static string Line(BadRequest.Types.FieldViolation violation, string indent)
    {
        string field = violation.Field;
        string said = Names.FirstOrDefault(name => field == name.Field || field.StartsWith(name.Field + ".", StringComparison.Ordinal) || field.StartsWith(name.Field + "[", StringComparison.Ordinal)).Said ?? field;
        return said.Length == 0 ? indent + violation.Description : $"{indent}{said}: {violation.Description}";
    }
}
