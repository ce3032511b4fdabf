using System.Buffers;
using System.Buffers.Text;
using Stockseat.Answers.Entries;

namespace Stockseat.Service.Lines.Forms;

/// <summary>Writes a reply into the memory from which it is sent, without garbage for the collector.</summary>
internal ref struct ReplyBytes
{
    /// <summary>Room for most replies; more is taken when it is needed.</summary>
    private const int Usual = 512;

    private const int LongestNumber = 24;

    private readonly IBufferWriter<byte> _output;
    private Span<byte> _span;
    private int _at;

    public ReplyBytes(IBufferWriter<byte> output)
    {
        _output = output;
        _span = output.GetSpan(Usual);
    }

    /// <summary>ASCII as it is.</summary>
    public void Raw(scoped ReadOnlySpan<byte> ascii)
    {
        ascii.CopyTo(Room(ascii.Length));
        _at += ascii.Length;
    }

    /// <summary>ASCII as it is.</summary>
    public void Raw(string ascii)
    {
        var length = System.Text.Encoding.ASCII.GetBytes(ascii, Room(ascii.Length)); // This comes first, since making room moves _at.
        _at += length;
    }

    /// <summary>A whole number.</summary>
    public void Whole(long number)
    {
        Utf8Formatter.TryFormat(number, Room(LongestNumber), out var length);
        _at += length;
    }

    /// <summary>A number with fixed decimals, padded on the left with spaces.</summary>
    public void Fixed(double value, int decimals, int exponent, int width)
    {
        var room = Room(Math.Max(LongestNumber, width));
        var length = FixedPoint.Format(room, value, decimals, exponent);
        if (length < width)
        {
            room[..length].CopyTo(room[(width - length)..]);
            room[..(width - length)].Fill((byte)' ');
            length = width;
        }

        _at += length;
    }

    /// <summary>The mark for an absent number: as wide as a number, so that what follows does not move.</summary>
    public void Absent(int width)
    {
        var length = Math.Max(width, 1);
        var room = Room(length);
        room[..(length - 1)].Fill((byte)' ');
        room[length - 1] = (byte)'-';
        _at += length;
    }

    /// <summary>text="…": printable ASCII, no quote within.</summary>
    public void Text(string text)
    {
        Raw("text=\""u8);
        var room = Room(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            room[i] = Quotable(text[i]);
        }

        _at += text.Length;
        Raw("\""u8);
    }

    /// <summary>A character as it may be inside quotes: printable ASCII, and not a quote.</summary>
    private static byte Quotable(char c) => c is '"' ? (byte)'\'' : c is >= ' ' and <= '~' ? (byte)c : (byte)'?';

    /// <summary>Hands what was written to the output.</summary>
    public readonly void End() => _output.Advance(_at);

    private Span<byte> Room(int needed)
    {
        if (_span.Length - _at < needed)
        {
            _output.Advance(_at);
            _span = _output.GetSpan(Math.Max(needed, Usual));
            _at = 0;
        }

        return _span[_at..];
    }
}
