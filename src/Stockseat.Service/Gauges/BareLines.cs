using System.Buffers;
using System.Text;

namespace Stockseat.Service.Gauges;

/// <summary>
/// Cuts what a gauge sends into lines: LF, CR or both end one. A line that is too long, or whose rest comes too late, is passed over to its
/// end: the rest of a number could be read as a number.
/// </summary>
/// <param name="time">The clock.</param>
public sealed class BareLines(TimeProvider time)
{
    /// <summary>The most bytes of a line, without its end.</summary>
    public const int LongestLine = 256;

    /// <summary>From a line's first byte to its end.</summary>
    public static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(10);

    private static readonly SearchValues<byte> Ends = SearchValues.Create("\r\n"u8);

    private readonly byte[] _begun = new byte[LongestLine];
    private int _length;
    private long _since;
    private bool _passingOver;

    /// <summary>Takes the next line, or what is wrong with it, from the front of the bytes.</summary>
    /// <param name="bytes">The bytes; what was taken is cut off, and what is left is empty when nothing whole is there.</param>
    /// <param name="line">The line without white space around it.</param>
    /// <param name="cause">What is wrong; the line is then what can be shown of it.</param>
    /// <returns>Whether there was one.</returns>
    public bool Next(ref ReadOnlySpan<byte> bytes, out string line, out PortCause? cause)
    {
        (line, cause) = ("", null);
        while (!bytes.IsEmpty)
        {
            if (_length > 0 && !_passingOver && time.GetElapsedTime(_since) > LongestWait)
            {
                (line, cause) = (CutShort(), PortCause.CutOff);
                return true;
            }

            var end = bytes.IndexOfAny(Ends);
            var part = end < 0 ? bytes : bytes[..end];
            bytes = end < 0 ? [] : bytes[(end + 1)..];
            if (Add(part))
            {
                (line, cause) = (CutShort(), PortCause.TooLong);
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

    /// <summary>Adds a part of a line; true when it is too long now.</summary>
    private bool Add(ReadOnlySpan<byte> part)
    {
        if (_passingOver || part.IsEmpty)
        {
            return false;
        }

        _since = _length == 0 ? time.GetTimestamp() : _since;
        var fits = part[..Math.Min(part.Length, LongestLine - _length)];
        fits.CopyTo(_begun.AsSpan(_length));
        _length += fits.Length;
        return fits.Length < part.Length;
    }

    /// <summary>What there is of a line whose rest is passed over.</summary>
    private string CutShort()
    {
        var line = Encoding.Latin1.GetString(_begun, 0, _length);
        (_length, _passingOver) = (0, true);
        return line;
    }

    private bool Take(out string line, out PortCause? cause)
    {
        var bytes = _begun.AsSpan(0, _length);
        var text = true;
        foreach (var b in bytes)
        {
            text &= b is >= (byte)' ' and <= (byte)'~' or (byte)'\t';
        }

        (line, cause) = (Encoding.Latin1.GetString(bytes).Trim(' ', '\t'), text ? null : PortCause.NotText);
        (_length, _passingOver) = (0, false);
        return line.Length > 0;
    }
}
