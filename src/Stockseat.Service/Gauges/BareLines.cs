using System.Buffers;
using System.Text;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Gauges;

/// <summary>
/// Cuts what a gauge sends into lines: LF, CR or both end one. A line that is too long, or whose rest comes too late, is skipped to its
/// end, since the rest of a number could be read as a number. At the first sign of another protocol nothing more is read.
/// </summary>
/// <param name="time">The clock.</param>
public sealed class BareLines(TimeProvider time)
{
    /// <summary>The most bytes of a line, without its end.</summary>
    public const int LongestLine = 256;

    /// <summary>From a line's first byte to its end.</summary>
    public static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(10);

    private static readonly SearchValues<byte> Ends = SearchValues.Create("\r\n"u8);

    private static readonly SearchValues<byte> Texts = SearchValues.Create([(byte)'\t', .. Enumerable.Range(' ', '~' - ' ' + 1).Select(c => (byte)c)]);

    private readonly byte[] _opening = new byte[ForeignBytes.Opening];
    private readonly byte[] _begun = new byte[LongestLine];
    private int _opened;
    private long _taken;
    private int _length;
    private long? _lastByte;
    private bool _passingOver;
    private bool _over;

    /// <summary>When the first byte of the newest line came, white space aside; also when the line has no end yet.</summary>
    public long Since { get; private set; }

    /// <summary>How long nothing had come before that, white space aside.</summary>
    public TimeSpan Quiet { get; private set; }

    /// <summary>Whether a line has begun that has no end yet.</summary>
    public bool HasBegun => _length > 0;

    /// <summary>Takes the next line, or what is wrong with it, from the front of the bytes.</summary>
    /// <param name="bytes">The bytes; what was taken is cut off; the rest is empty when there is no complete line.</param>
    /// <param name="line">The line without white space around it.</param>
    /// <param name="cause">What is wrong; the line is then what can be shown of it.</param>
    /// <returns>Whether there was one.</returns>
    public bool Next(ref ReadOnlySpan<byte> bytes, out string line, out PortCause? cause)
    {
        (line, cause) = ("", null);
        if (!_over && OpensForeign(bytes))
        {
            (line, cause, _over, _length) = (Encoding.Latin1.GetString(_opening, 0, _opened), PortCause.Foreign, true, 0);
            return true;
        }

        while (!bytes.IsEmpty && !_over)
        {
            if (_length > 0 && time.GetElapsedTime(Since) > LongestWait)
            {
                (line, cause) = CutShort(PortCause.CutOff);
                return true;
            }

            var end = bytes.IndexOfAny(Ends);
            var part = end < 0 ? bytes : bytes[..end];
            _taken += end < 0 ? bytes.Length : end + 1;
            bytes = end < 0 ? [] : bytes[(end + 1)..];
            if (Add(part))
            {
                (line, cause) = CutShort(PortCause.TooLong);
                _passingOver = end < 0;
                return true;
            }

            if (end >= 0 && Take(out line, out cause))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The connection ended: half a line is never used.</summary>
    /// <param name="line">What can be shown of it.</param>
    /// <returns>Whether there was one.</returns>
    public bool End(out string line)
    {
        line = Encoding.Latin1.GetString(_begun, 0, _length).Trim();
        (_length, _passingOver) = (0, false);
        return line.Length > 0;
    }

    /// <summary>Whether the very first bytes are those of another protocol. The rest of a piece comes again: only the bytes beyond it are new.</summary>
    private bool OpensForeign(ReadOnlySpan<byte> bytes)
    {
        while (_opened < _opening.Length && _opened - _taken < bytes.Length)
        {
            _opening[_opened] = bytes[(int)(_opened - _taken)];
            _opened++;
        }

        return ForeignBytes.Opens(_opening.AsSpan(0, _opened));
    }

    /// <summary>Adds a part of a line; true when the line is now too long.</summary>
    private bool Add(ReadOnlySpan<byte> part)
    {
        part = _length == 0 ? part.TrimStart(" \t"u8) : part;
        if (part.IsEmpty)
        {
            return false;
        }

        var now = time.GetTimestamp();
        if (_length == 0 && !_passingOver)
        {
            (Since, Quiet) = (now, _lastByte is { } last ? time.GetElapsedTime(last, now) : TimeSpan.MaxValue);
        }

        _lastByte = now;
        if (_passingOver)
        {
            return false;
        }

        var fits = part[..Math.Min(part.Length, LongestLine - _length)];
        fits.CopyTo(_begun.AsSpan(_length));
        _length += fits.Length;
        return fits.Length < part.Length;
    }

    /// <summary>The beginning of a line whose rest is skipped.</summary>
    private (string Line, PortCause Cause) CutShort(PortCause cause)
    {
        var bytes = _begun.AsSpan(0, _length);
        (_length, _passingOver, _over) = (0, true, IsForeign(bytes, tooLong: true));
        return (Encoding.Latin1.GetString(bytes), _over ? PortCause.Foreign : cause);
    }

    private bool Take(out string line, out PortCause? cause)
    {
        var bytes = _begun.AsSpan(0, _length);
        (_length, _passingOver, _over) = (0, false, IsForeign(bytes, tooLong: false));
        line = Encoding.Latin1.GetString(bytes).Trim(' ', '\t');
        cause = _over ? PortCause.Foreign : bytes.ContainsAnyExcept(Texts) ? PortCause.NotText : null;
        return line.Length > 0;
    }

    private static bool IsForeign(ReadOnlySpan<byte> line, bool tooLong) => ForeignBytes.IsRequestLine(line, tooLong) || ForeignBytes.IsKnownField(line);
}
