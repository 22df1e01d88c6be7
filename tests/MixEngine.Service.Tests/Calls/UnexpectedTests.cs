using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Calls;

/// <summary>A fault of the service itself: its client gets a reference and nothing else, and the log has the rest, once.</summary>
public sealed class UnexpectedTests : IAsyncLifetime
{
    private readonly TestService _service = new();

    public ValueTask InitializeAsync() => _service.InitializeAsync();

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    [Fact]
    public async Task A_fault_of_the_service_is_logged_once_and_not_shown()
    {
        // Something no import would ever store.
        _service.Import("broken", "name,hex\nkelp,#334455\n");
        _service.Tamper("UPDATE paint_color SET color = 'secret nonsense' WHERE color = '#334455'");
        _service.Logs.Declare(entry => entry.Category.EndsWith("ErrorInterceptor", StringComparison.Ordinal));
        var fault = await Assert.ThrowsAsync<RpcException>(() => _service.Mixing.PredictAsync(new PredictRequest { Shelf = "broken", Recipe = new RecipeInput { Text = "kelp" } }).ResponseAsync);
        Assert.Equal(StatusCode.Internal, fault.StatusCode);
        Assert.DoesNotContain("secret", fault.Status.Detail);
        Assert.DoesNotContain("Exception", fault.Status.Detail);
        var logged = Assert.Single(_service.Logs.Entries, entry => entry.Exception is not null);
        Assert.IsType<FormatException>(logged.Exception);
        Assert.Contains(logged.Message.Split("reference ")[1].TrimEnd('.'), fault.Status.Detail);
    }
}
