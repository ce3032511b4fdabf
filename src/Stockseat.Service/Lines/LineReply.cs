using System.Buffers;
using System.Globalization;
using System.Text;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Service.Lines;

/// <summary>Writes one reply: the first word decides; a refusal carries no coordinate, no default, no last value.</summary>
public sealed class LineReply
{
    private readonly ArrayBufferWriter<byte> _bytes = new(512);

    /// <summary>The reply with its line end.</summary>
    public ReadOnlyMemory<byte> Bytes => _bytes.WrittenMemory;

    /// <summary>Begins an answer.</summary>
    public static LineReply Ok(string? tag)
    {
        var reply = new LineReply().Word("ok");
        return tag is null ? reply : reply.Pair("tag", tag);
    }

    /// <summary>A whole refusal.</summary>
    public static LineReply Refused(string? tag, Refusal refusal)
    {
        var reply = new LineReply().Word("refused");
        if (tag is not null)
        {
            reply.Pair("tag", tag);
        }

        return reply.Pair("class", refusal.Info.Class.ToString().ToLowerInvariant()).Pair("reason", refusal.Info.Name).Text(refusal.Text).End();
    }

    /// <summary>A whole answer to a locate, form <c>named</c>: metres, fixed decimals.</summary>
    public static LineReply Answer(AnswerBody a)
    {
        var reply = Ok(a.Tag).Pair("serial", a.Serial).Pair("fixture", a.Fixture!).Pair("revision", a.Revision!.Value).Pair("purpose", a.Purpose)
            .Pair("nest", string.Create(CultureInfo.InvariantCulture, $"{a.Nest[0]},{a.Nest[1]}")).Number("diameter", a.Diameter, a.Decimals);
        if (a.Measurement is { } measurement)
        {
            reply.Pair("measurement", measurement).Pair("age", (long)a.Age!.Value);
        }

        reply.Pair("unit", "m").Pair("first", a.First ? "yes" : "no");
        foreach (var name in AnswerBody.Coordinates)
        {
            _ = a.TryNumber(name, out var value);
            reply.Number(name, value, a.Decimals);
        }

        return reply.Word("end").End();
    }

    /// <summary>A word.</summary>
    public LineReply Word(string word)
    {
        if (_bytes.WrittenCount > 0)
        {
            Raw(" ");
        }

        return Raw(word);
    }

    /// <summary>key=value, for a value without spaces.</summary>
    public LineReply Pair(string key, string value) => Word(key).Raw("=").Raw(value);

    /// <summary>key=value.</summary>
    public LineReply Pair(string key, long value) => Pair(key, value.ToString(CultureInfo.InvariantCulture));

    /// <summary>key=value with fixed decimals.</summary>
    public LineReply Number(string key, double value, int decimals = FixedPoint.UsualDecimals)
    {
        Word(key).Raw("=");
        _bytes.Advance(FixedPoint.Format(_bytes.GetSpan(24), value, decimals));
        return this;
    }

    /// <summary>text="…": printable ASCII, no quote within.</summary>
    public LineReply Text(string text)
    {
        Word("text=\"");
        foreach (var c in text)
        {
            _bytes.GetSpan(1)[0] = c is '"' ? (byte)'\'' : c is >= ' ' and <= '~' ? (byte)c : (byte)'?';
            _bytes.Advance(1);
        }

        return Raw("\"");
    }

    /// <summary>Ends the reply.</summary>
    public LineReply End() => Raw("\n");

    private LineReply Raw(string text)
    {
        _bytes.Advance(Encoding.ASCII.GetBytes(text, _bytes.GetSpan(text.Length)));
        return this;
    }
}
