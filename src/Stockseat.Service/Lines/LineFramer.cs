using System.Buffers;
using System.Text;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Lines;

/// <summary>What is at the front of the bytes.</summary>
public enum FrameKind
{
    /// <summary>Nothing complete yet.</summary>
    Incomplete,

    /// <summary>A line of printable ASCII.</summary>
    Line,

    /// <summary>A line with other bytes in it: refused.</summary>
    Unprintable,

    /// <summary>More than <see cref="LineFramer.LongestLine"/> bytes without an end: refused once, and the rest of it is skipped.</summary>
    TooLong,

    /// <summary>The stream ended within a line.</summary>
    CutOff,

    /// <summary>Not this protocol: refused once, then the connection closes. None of it is used.</summary>
    Foreign,
}

/// <summary>Cuts a stream of bytes into lines. Pure: bytes in, frames out.</summary>
public sealed class LineFramer
{
    /// <summary>The most bytes of a line, without its end.</summary>
    public const int LongestLine = 512;

    /// <summary>How far it searches for the end of a line, whatever pieces the bytes come in.</summary>
    private const int Reach = LongestLine + 1;

    private bool _begun;
    private bool _passingOver;

    /// <summary>How many bytes of a line that is too long were skipped so far; 0 when none is being skipped.</summary>
    public long PassedOver { get; private set; }

    /// <summary>Takes the next frame from the front of the buffer.</summary>
    /// <param name="buffer">The bytes; what was taken is cut off.</param>
    /// <param name="ended">Whether no more bytes will come.</param>
    /// <param name="line">The line's text, for <see cref="FrameKind.Line"/>.</param>
    public FrameKind Next(ref ReadOnlySequence<byte> buffer, bool ended, out string line)
    {
        line = "";
        if (_passingOver && !PassOver(ref buffer))
        {
            return FrameKind.Incomplete;
        }

        if (buffer.IsEmpty)
        {
            return FrameKind.Incomplete;
        }

        if (IsForeignAtOnce(buffer))
        {
            return FrameKind.Foreign;
        }

        var (kind, length, taken) = Scan(buffer, ended);
        if (kind is FrameKind.Line or FrameKind.TooLong)
        {
            kind = Judge(kind, buffer.Slice(0, length), out line);
        }

        (_passingOver, PassedOver) = kind == FrameKind.TooLong ? (true, taken) : (false, 0);
        _begun |= kind != FrameKind.Incomplete;
        buffer = buffer.Slice(kind == FrameKind.Foreign ? 0 : taken);
        return kind;
    }

    /// <summary>What is recognised before the end of its line: TLS, and a connection that begins with an HTTP method.</summary>
    private bool IsForeignAtOnce(ReadOnlySequence<byte> buffer)
    {
        Span<byte> copy = stackalloc byte[ForeignBytes.Opening];
        var start = buffer.Slice(0, Math.Min(buffer.Length, copy.Length));
        start.CopyTo(copy);
        copy = copy[..(int)start.Length];
        return ForeignBytes.IsTls(copy) || (!_begun && ForeignBytes.HasMethod(copy));
    }

    /// <summary>Finds the end of the line, or why there is none.</summary>
    private static (FrameKind Kind, long Length, long Taken) Scan(ReadOnlySequence<byte> buffer, bool ended)
    {
        var reader = new SequenceReader<byte>(buffer);
        if (!reader.TryAdvanceToAny("\0\r\n"u8, advancePastDelimiter: false) || reader.Consumed >= Reach || !reader.TryRead(out var stop))
        {
            return buffer.Length >= Reach ? (FrameKind.TooLong, Reach, Reach)
                : ended ? (FrameKind.CutOff, 0, buffer.Length)
                : (FrameKind.Incomplete, 0, 0);
        }

        var length = reader.Consumed - 1;
        return stop switch
        {
            (byte)'\n' => (FrameKind.Line, length, reader.Consumed),
            (byte)'\r' when reader.TryPeek(out var next) => next == '\n' ? (FrameKind.Line, length, reader.Consumed + 1) : (FrameKind.Foreign, 0, 0),
            (byte)'\r' when !ended => (FrameKind.Incomplete, 0, 0),
            _ => (FrameKind.Foreign, 0, 0),
        };
    }

    /// <summary>Looks for HTTP first: no part of an HTTP line may run, even when the line is too long.</summary>
    private static FrameKind Judge(FrameKind kind, ReadOnlySequence<byte> bytes, out string line)
    {
        line = "";
        Span<byte> copy = stackalloc byte[Reach];
        copy = copy[..(int)bytes.Length];
        bytes.CopyTo(copy);
        if (ForeignBytes.IsField(copy) || ForeignBytes.IsRequestLine(copy, tooLong: kind == FrameKind.TooLong))
        {
            return FrameKind.Foreign;
        }

        if (kind == FrameKind.Line && copy.ContainsAnyExceptInRange((byte)' ', (byte)'~'))
        {
            return FrameKind.Unprintable;
        }

        line = kind == FrameKind.Line ? Encoding.ASCII.GetString(copy) : "";
        return kind;
    }

    /// <summary>Skips the rest of a line that was too long; true when its end was found.</summary>
    private bool PassOver(ref ReadOnlySequence<byte> buffer)
    {
        var end = buffer.PositionOf((byte)'\n');
        PassedOver = end is null ? PassedOver + buffer.Length : 0;
        buffer = end is { } position ? buffer.Slice(buffer.GetPosition(1, position)) : buffer.Slice(buffer.End);
        _passingOver = end is null;
        return end is not null;
    }
}
