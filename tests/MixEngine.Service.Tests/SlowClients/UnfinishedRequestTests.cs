using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.SlowClients;

/// <summary>Clients that close a batch, read all answers and drop the call, without ever ending their own side of the stream.</summary>
public sealed class UnfinishedRequestTests(TestService service) : IClassFixture<TestService>
{
    // More than Kestrel lets end so within five seconds on one connection: 200.
    private const int Batches = 600;

    [Fact]
    public async Task Hundreds_of_them_in_seconds_keep_their_connection()
    {
        var client = new Batch.BatchClient(service.Channel);
        var (faults, first) = (0, default(RpcException));
        await Parallel.ForAsync(0, Batches, new ParallelOptions { MaxDegreeOfParallelism = 20, CancellationToken = TestContext.Current.CancellationToken }, async (i, cancel) =>
        {
            using var call = client.Solve(cancellationToken: cancel);
            await call.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = $"small-{i}", Shelf = "home" } }, cancel);
            await call.RequestStream.WriteAsync(new SolveRequest { Close = new CloseBatch() }, cancel);
            try
            {
                while (await call.ResponseStream.MoveNext(cancel))
                {
                }
            }
            catch (RpcException fault)
            {
                first ??= fault;
                Interlocked.Increment(ref faults);
            }
        });

        Assert.True(faults == 0, $"{faults} failed; one of them: {first}");
    }
}
