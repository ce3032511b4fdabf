using System.Buffers;
using System.Text;

namespace Stockseat.Service.Lines;

/// <summary>What stands at the front of the bytes.</summary>
public enum FrameKind
{
    /// <summary>Nothing whole yet.</summary>
    Incomplete,

    /// <summary>A line of printable ASCII.</summary>
    Line,

    /// <summary>A line with other bytes in it: refused, the connection goes on.</summary>
    Unprintable,

    /// <summary>More than <see cref="LineFramer.LongestLine"/> bytes without an end: refused once, the rest of it is passed over.</summary>
    TooLong,

    /// <summary>The stream ended within a line.</summary>
    CutOff,

    /// <summary>Not this protocol: refused once, then the connection closes.</summary>
    Foreign,
}

/// <summary>Cuts a stream of bytes into lines. Pure: bytes in, frames out.</summary>
public sealed class LineFramer
{
    /// <summary>The most bytes of a line, without its end.</summary>
    public const int LongestLine = 512;

    private const byte TlsGreeting = 0x16;
    private static readonly string[] HttpVerbs = ["GET ", "POST ", "PUT ", "HEAD ", "DELETE ", "OPTIONS ", "PATCH ", "CONNECT ", "TRACE ", "PRI "];

    private bool _passingOver;

    /// <summary>How many bytes of a line that is too long were passed over so far; 0 when none is being passed over.</summary>
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

        if (buffer.FirstSpan[0] == TlsGreeting)
        {
            return FrameKind.Foreign;
        }

        var (kind, length, taken) = Scan(buffer, ended);
        switch (kind)
        {
            case FrameKind.Line:
                kind = Text(buffer.Slice(0, length), out line);
                break;
            case FrameKind.TooLong:
                _passingOver = true;
                PassedOver = taken;
                break;
        }

        buffer = buffer.Slice(taken);
        return kind;
    }

    /// <summary>Finds the end of the line, or why there is none. It looks no further than a line may reach, so that the pieces in which bytes come do not matter.</summary>
    private static (FrameKind Kind, long Length, long Taken) Scan(ReadOnlySequence<byte> buffer, bool ended)
    {
        const int Reach = LongestLine + 1;
        var reader = new SequenceReader<byte>(buffer);
        if (!reader.TryAdvanceToAny("\0\r\n"u8, advancePastDelimiter: false) || reader.Consumed >= Reach || !reader.TryRead(out var stop))
        {
            return buffer.Length >= Reach ? (FrameKind.TooLong, 0, Reach)
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

    private static FrameKind Text(ReadOnlySequence<byte> bytes, out string line)
    {
        line = "";
        Span<byte> copy = stackalloc byte[LongestLine];
        copy = copy[..(int)bytes.Length];
        bytes.CopyTo(copy);
        if (copy.ContainsAnyExceptInRange((byte)' ', (byte)'~'))
        {
            return FrameKind.Unprintable;
        }

        var text = Encoding.ASCII.GetString(copy);
        if (text.Contains(" HTTP/", StringComparison.Ordinal) && HttpVerbs.Any(v => text.StartsWith(v, StringComparison.Ordinal)))
        {
            return FrameKind.Foreign;
        }

        line = text;
        return FrameKind.Line;
    }

    /// <summary>Passes over the rest of a line that was too long; true when its end was found.</summary>
    private bool PassOver(ref ReadOnlySequence<byte> buffer)
    {
        var end = buffer.PositionOf((byte)'\n');
        PassedOver = end is null ? PassedOver + buffer.Length : 0;
        buffer = end is { } position ? buffer.Slice(buffer.GetPosition(1, position)) : buffer.Slice(buffer.End);
        _passingOver = end is null;
        return end is not null;
    }
}
