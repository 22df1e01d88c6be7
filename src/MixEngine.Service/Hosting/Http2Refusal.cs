using System.Buffers;
using System.Buffers.Binary;
using System.Text;
using Microsoft.AspNetCore.Connections;

namespace MixEngine.Service.Hosting;

/// <summary>Tells a client that speaks HTTP/2 to a port of HTTP/1.1 why it gets no answer there.</summary>
/// <remarks>
/// Left alone, such a client only sees its connection closed. It is answered in its own language: settings, a response with HTTP
/// status 505 and gRPC status UNIMPLEMENTED and the reason, and a GOAWAY with HTTP_1_1_REQUIRED [RFC 9113, RFC 7541, gRPC over HTTP2].
/// </remarks>
internal sealed class Http2Refusal(string reason, ILogger logger)
{
    private const int FrameHeaderBytes = 9;
    private const byte HeadersFrame = 1, SettingsFrame = 4, GoAwayFrame = 7;
    private const byte Acknowledge = 0x1, EndStream = 0x1, EndHeaders = 0x4;
    private const uint Http11Required = 0xd;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private static readonly byte[] Preface = "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"u8.ToArray();

    /// <summary>Refuses a connection that begins as HTTP/2, and hands on any other.</summary>
    public async Task OrNextAsync(ConnectionContext connection, ConnectionDelegate next)
    {
        using var patience = new CancellationTokenSource(Patience);
        try
        {
            if (await BeginsAsHttp2Async(connection, patience.Token))
            {
                Log.WrongProtocol(logger, connection.LocalEndPoint?.ToString() ?? "");
                await RefuseAsync(connection, patience.Token);
                return;
            }
        }
        catch (Exception fault) when (fault is OperationCanceledException or IOException)
        {
            // It said nothing for too long, or went away: nobody is left to be told anything.
            connection.Abort();
            return;
        }

        await next(connection);
    }

    private static async Task<bool> BeginsAsHttp2Async(ConnectionContext connection, CancellationToken patience)
    {
        while (true)
        {
            var read = await connection.Transport.Input.ReadAsync(patience);
            var start = read.Buffer.Slice(0, Math.Min(read.Buffer.Length, Preface.Length)).ToArray();
            var matches = Preface.AsSpan().StartsWith(start);
            if (!matches || read.IsCompleted || start.Length == Preface.Length)
            {
                // Looked at, not taken: who comes next reads it again.
                connection.Transport.Input.AdvanceTo(matches && start.Length == Preface.Length ? read.Buffer.GetPosition(start.Length) : read.Buffer.Start);
                return matches && start.Length == Preface.Length;
            }

            connection.Transport.Input.AdvanceTo(read.Buffer.Start, read.Buffer.End);
        }
    }

    private async Task RefuseAsync(ConnectionContext connection, CancellationToken patience)
    {
        var output = connection.Transport.Output;
        await output.WriteAsync(Frame(SettingsFrame, 0, 0, []), patience);

        // Only what was asked can be answered: pass over its frames until there is a request.
        while (true)
        {
            var read = await connection.Transport.Input.ReadAsync(patience);
            var rest = read.Buffer;
            while (TryTakeFrame(ref rest, out var type, out var flags, out var stream))
            {
                if (type == SettingsFrame && (flags & Acknowledge) == 0)
                {
                    await output.WriteAsync(Frame(SettingsFrame, Acknowledge, 0, []), patience);
                }
                else if (type == HeadersFrame)
                {
                    await output.WriteAsync(Frame(HeadersFrame, EndStream | EndHeaders, stream, Headers()), patience);
                    await output.WriteAsync(Frame(GoAwayFrame, 0, 0, GoAway(stream)), patience);
                    connection.Transport.Input.AdvanceTo(rest.Start);
                    await output.CompleteAsync();
                    return;
                }
            }

            connection.Transport.Input.AdvanceTo(rest.Start, read.Buffer.End);
            if (read.IsCompleted)
            {
                return;
            }
        }
    }

    private static bool TryTakeFrame(ref ReadOnlySequence<byte> buffer, out byte type, out byte flags, out uint stream)
    {
        (type, flags, stream) = (0, 0, 0);
        if (buffer.Length < FrameHeaderBytes)
        {
            return false;
        }

        Span<byte> header = stackalloc byte[FrameHeaderBytes];
        buffer.Slice(0, FrameHeaderBytes).CopyTo(header);
        var length = (header[0] << 16) | (header[1] << 8) | header[2];
        if (buffer.Length < FrameHeaderBytes + length)
        {
            return false;
        }

        (type, flags, stream) = (header[3], header[4], BinaryPrimitives.ReadUInt32BigEndian(header[5..]) & 0x7fffffff);
        buffer = buffer.Slice(FrameHeaderBytes + length);
        return true;
    }

    private static byte[] Frame(byte type, byte flags, uint stream, byte[] payload)
    {
        var frame = new byte[FrameHeaderBytes + payload.Length];
        (frame[0], frame[1], frame[2]) = ((byte)(payload.Length >> 16), (byte)(payload.Length >> 8), (byte)payload.Length);
        (frame[3], frame[4]) = (type, flags);
        BinaryPrimitives.WriteUInt32BigEndian(frame.AsSpan(5), stream);
        payload.CopyTo(frame, FrameHeaderBytes);
        return frame;
    }

    // Literal fields, never indexed, without Huffman code.
    private byte[] Headers()
    {
        List<byte> block = [];
        void Text(string text)
        {
            var bytes = Encoding.ASCII.GetBytes(text);
            block.AddRange(bytes.Length < 127 ? [(byte)bytes.Length] : [127, (byte)(bytes.Length - 127)]);
            block.AddRange(bytes);
        }

        foreach (var (name, value) in new[] { (":status", "505"), ("content-type", "application/grpc"), ("grpc-status", "12"), ("grpc-message", reason) })
        {
            block.Add(0x10);
            Text(name);
            Text(value);
        }

        return [.. block];
    }

    private byte[] GoAway(uint lastStream)
    {
        var text = Encoding.ASCII.GetBytes(reason);
        var payload = new byte[8 + text.Length];
        BinaryPrimitives.WriteUInt32BigEndian(payload, lastStream);
        BinaryPrimitives.WriteUInt32BigEndian(payload.AsSpan(4), Http11Required);
        text.CopyTo(payload, 8);
        return payload;
    }
}
