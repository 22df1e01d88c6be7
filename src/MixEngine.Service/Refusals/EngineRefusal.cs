using Grpc.Core;

namespace MixEngine.Service.Refusals;

/// <summary>What the engine itself finds wrong with a question, where only it can tell.</summary>
internal static class EngineRefusal
{
    private const string ParameterSuffix = " (Parameter '";

    /// <summary>Asks the engine; its <see cref="ArgumentException"/> is the fault of this field.</summary>
    /// <exception cref="Refusal">With the engine's own words.</exception>
    public static T InField<T>(string field, Func<T> ask)
    {
        try
        {
            return ask();
        }
        catch (ArgumentException fault)
        {
            throw new Refusal(StatusCode.InvalidArgument, field, fault.Message.Split(ParameterSuffix)[0]);
        }
    }
}
