using System.Buffers;
using System.Buffers.Binary;
using System.Globalization;
using System.IO.Pipelines;
using System.Text;
using Microsoft.AspNetCore.Connections;

namespace Stockseat.Service.Clients;

/// <summary>
/// Answers the first HTTP/2 request of somebody who is no client. Nothing that such a caller sends reaches the HTTP/2 of the server or a service: its frames
/// are only counted until its first request shows, and what it reads is made of the refusal alone (RFC 9113 and 7541). It has to be answered: clients take a
/// connection that just ends for a fault of the network, and connect again and again.
/// </summary>
public static class StrangersRequest
{
    private const int FrameHeader = 9;
    private const int Most = 64 * 1024;
    private const byte DataType = 0;
    private const byte HeadersType = 1;
    private const byte SettingsType = 4;
    private const byte GoAwayType = 7;
    private const byte Acknowledge = 1;
    private const byte EndStream = 1;
    private const byte EndHeaders = 4;

    private static readonly byte[] Settings = Frame(SettingsType, 0, 0, []);

    private static ReadOnlySpan<byte> Preface => "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"u8;

    /// <summary>Waits for the first request, and answers it. Whatever speaks another protocol is answered nothing.</summary>
    /// <param name="connection">The caller's connection.</param>
    /// <param name="status">The status of the reply.</param>
    /// <param name="fields">The fields of the reply, their names in lower case.</param>
    /// <param name="content">Its content; none: there is none.</param>
    /// <param name="late">Ends the wait.</param>
    public static async Task Answer(
        ConnectionContext connection, int status, IEnumerable<(string Name, string Value)> fields, ReadOnlyMemory<byte> content, CancellationToken late)
    {
        if (await First(connection.Transport.Input, connection.Transport.Output, late) is { } stream)
        {
            await connection.Transport.Output.WriteAsync(Reply(stream, status, fields, content.Span), late);
            await LetRead(connection, late);
        }
    }

    /// <summary>
    /// Takes what the caller still sends, and throws it away, until the caller ends the connection or a second has passed: ended by this side with bytes that
    /// nobody took, a connection is reset, and the caller may never see the reply.
    /// </summary>
    public static async Task LetRead(ConnectionContext connection, CancellationToken late)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(late);
        patience.CancelAfter(TimeSpan.FromSeconds(1));
        try
        {
            for (var taken = 0L; taken < Most;)
            {
                var read = await connection.Transport.Input.ReadAsync(patience.Token);
                taken += read.Buffer.Length;
                connection.Transport.Input.AdvanceTo(read.Buffer.End);
                if (read.IsCompleted)
                {
                    return;
                }
            }
        }
        catch (OperationCanceledException) when (!late.IsCancellationRequested)
        {
            // It has had the time to read the reply.
        }
    }

    private static async Task<int?> First(PipeReader input, PipeWriter output, CancellationToken late)
    {
        var greeted = false;
        while (true)
        {
            var read = await input.ReadAsync(late);
            var bytes = read.Buffer.Slice(0, Math.Min(read.Buffer.Length, Most)).ToArray();
            var (isHttp2, stream) = Look(bytes);
            input.AdvanceTo(stream is null ? read.Buffer.Start : read.Buffer.End, read.Buffer.End);
            if (stream is not null || isHttp2 == false || read.IsCompleted || read.Buffer.Length >= Most)
            {
                return stream;
            }

            if (isHttp2 == true && !greeted)
            {
                greeted = true;
                await output.WriteAsync(Settings, late); // Some clients call only when they have read it.
            }
        }
    }

    /// <summary>Whether it is HTTP/2, null: not known yet; and the stream of the first request, null: none has come yet.</summary>
    public static (bool? IsHttp2, int? Stream) Look(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < Preface.Length)
        {
            return (Preface.StartsWith(bytes) ? null : false, null);
        }

        if (!bytes.StartsWith(Preface))
        {
            return (false, null);
        }

        for (bytes = bytes[Preface.Length..]; bytes.Length >= FrameHeader;)
        {
            if (bytes[3] == HeadersType)
            {
                return (true, BinaryPrimitives.ReadInt32BigEndian(bytes[5..]) & int.MaxValue);
            }

            var length = FrameHeader + ((bytes[0] << 16) | (bytes[1] << 8) | bytes[2]);
            bytes = bytes.Length < length ? [] : bytes[length..];
        }

        return (true, null);
    }

    private static byte[] Reply(int stream, int status, IEnumerable<(string Name, string Value)> fields, ReadOnlySpan<byte> content)
    {
        using var block = new MemoryStream();
        block.WriteByte(8); // The eighth name of the static table is :status.
        Write(block, status.ToString(CultureInfo.InvariantCulture));
        foreach (var (name, value) in fields)
        {
            block.WriteByte(0); // A field that is not indexed, with a name of its own.
            Write(block, name);
            Write(block, value);
        }

        var last = new byte[8];
        BinaryPrimitives.WriteInt32BigEndian(last, stream);
        return
        [
            .. Settings, .. Frame(SettingsType, Acknowledge, 0, []),
            .. Frame(HeadersType, content.IsEmpty ? (byte)(EndHeaders | EndStream) : EndHeaders, stream, block.ToArray()),
            .. content.IsEmpty ? [] : Frame(DataType, EndStream, stream, content), .. Frame(GoAwayType, 0, 0, last),
        ];
    }

    private static byte[] Frame(byte type, byte flags, int stream, ReadOnlySpan<byte> content)
    {
        var frame = new byte[FrameHeader + content.Length];
        BinaryPrimitives.WriteInt32BigEndian(frame, content.Length << 8);
        (frame[3], frame[4]) = (type, flags);
        BinaryPrimitives.WriteInt32BigEndian(frame.AsSpan(5), stream);
        content.CopyTo(frame.AsSpan(FrameHeader));
        return frame;
    }

    /// <summary>A text as RFC 7541, 5.1 and 5.2, writes it without compressing it.</summary>
    private static void Write(MemoryStream block, string text)
    {
        const int Short = 127;
        var length = Encoding.ASCII.GetByteCount(text);
        if (length < Short)
        {
            block.WriteByte((byte)length);
        }
        else
        {
            block.WriteByte(Short);
            for (length -= Short; length >= 128; length >>= 7)
            {
                block.WriteByte((byte)(length | 128));
            }

            block.WriteByte((byte)length);
        }

        block.Write(Encoding.ASCII.GetBytes(text));
    }
}
