using System.Net.Sockets;
using Grpc.Net.Client;

namespace MixEngine.Service.Tests.SlowClients;

/// <summary>A client whose machine stops from one moment to the next: its connection stays open, and nothing is read from it, written to it or said on it any more.</summary>
internal sealed class FrozenConnection : IDisposable
{
    private readonly TaskCompletionSource _frozen = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly List<Socket> _sockets = [];

    public FrozenConnection(string socketPath) => Channel = GrpcChannel.ForAddress("http://localhost", new GrpcChannelOptions
    {
        HttpHandler = new SocketsHttpHandler
        {
            ConnectCallback = async (_, cancel) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(socketPath), cancel);
                _sockets.Add(socket);

                // The socket outlives the stream: whoever is dead does not close it.
                return new Freezing(new NetworkStream(socket, ownsSocket: false), _frozen.Task);
            },
        },
        DisposeHttpClient = true,
    });

    public GrpcChannel Channel { get; }

    public void Freeze() => _frozen.TrySetResult();

    public void Dispose()
    {
        Channel.Dispose();
        _sockets.ForEach(socket => socket.Dispose());
    }

    private sealed class Freezing(NetworkStream connection, Task frozen) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
        {
            var read = await connection.ReadAsync(buffer, cancellationToken);
            await UnlessFrozenAsync(cancellationToken);
            return read;
        }

        public override async ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
        {
            await UnlessFrozenAsync(cancellationToken);
            await connection.WriteAsync(buffer, cancellationToken);
        }

        public override void Flush()
        {
        }

        public override Task FlushAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        private Task UnlessFrozenAsync(CancellationToken cancel) => frozen.IsCompleted ? Task.Delay(Timeout.Infinite, cancel) : Task.CompletedTask;
    }
}
