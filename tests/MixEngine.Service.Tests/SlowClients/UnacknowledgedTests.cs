using Google.Protobuf;
using MixEngine.Service.Tests.Hosting;
using MixEngine.V1;

namespace MixEngine.Service.Tests.SlowClients;

/// <summary>A client that reads its answers and acknowledges none: the service does not remember them one by one.</summary>
public sealed class UnacknowledgedTests : IDisposable
{
    // What the service may hold of managed memory: it needs less than 22 MiB for this, and did not come through with 32 MiB when it remembered the keys.
    private const int HeapBytes = 28 << 20;

    private const int Items = 60_000;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Answers_that_are_read_and_never_acknowledged_take_no_memory()
    {
        using var service = ServiceProcess.StartBy(FormattableString.Invariant($"DOTNET_GCHeapHardLimit=0x{HeapBytes:x} exec \"$0\" \"$@\""), "--socket", _folder.Socket, "--data", _folder.Data);
        await ServiceProcess.AcceptingAsync(_folder.Socket);
        using var channel = UnixChannel.To(_folder.Socket);
        await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast.Table) });

        await using (var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(channel), "never", "home"))
        {
            var answers = 0;
            var reading = batch.ReadEachAsync(answer => answers += answer.Error is null ? 1 : 0);
            var sending = Task.Run(async () =>
            {
                for (var i = 0; i < Items; i++)
                {
                    await batch.SendAsync(Item(i));
                }

                // All of them stand in the database: one that is asked again is not sent again.
                await batch.SendAsync(Item(0), Item(Items / 2));
                await batch.CloseAsync();
            });
            await Task.WhenAll(reading, sending).WaitAsync(Waiting.Patience * 3);
            Assert.Equal(Items, answers);
        }

        service.Terminate();
        Assert.Equal(0, (await service.EndAsync()).ExitCode);
    }

    private static BatchItem Item(int i) => new()
    {
        Key = FormattableString.Invariant($"{i:0000000}") + new string('k', 193), Words = new WordsRequest { Color = new ColorInput { Text = "#5a6b3c" } },
    };
}
