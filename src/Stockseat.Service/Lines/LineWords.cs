using System.Buffers;
using System.Globalization;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Lines;

/// <summary>A reply made word by word, its fields by their names.</summary>
/// <param name="form">How the client's replies look.</param>
public sealed class LineWords(Form form)
{
    private readonly ArrayBufferWriter<byte> _bytes = new(512);
    private int _fitting;

    /// <summary>Begins an ok in the form <c>named</c>.</summary>
    public static LineWords Ok(string? tag) => Ok(Form.Named, tag);

    /// <summary>Begins an ok whose fields are named.</summary>
    public static LineWords Ok(Form form, string? tag)
    {
        var reply = new LineWords(form).Word("ok");
        return tag is null ? reply : reply.Pair("tag", tag);
    }

    /// <summary>A word.</summary>
    public LineWords Word(string word)
    {
        if (_bytes.WrittenCount > 0)
        {
            _fitting = _bytes.WrittenCount <= form.Longest ? _bytes.WrittenCount : _fitting;
            Raw(" ");
        }

        return Raw(word);
    }

    /// <summary>key=value, for a value without spaces.</summary>
    public LineWords Pair(string key, string value) => Word(key).Raw("=").Raw(value);

    /// <summary>key=value.</summary>
    public LineWords Pair(string key, long value) => Pair(key, value.ToString(CultureInfo.InvariantCulture));

    /// <summary>key=value with fixed decimals.</summary>
    /// <param name="key">The key.</param>
    /// <param name="value">The value; finite.</param>
    /// <param name="decimals">0 to 12.</param>
    /// <param name="exponent">The power of ten that it is multiplied by first.</param>
    public LineWords Number(string key, double value, int decimals = FixedPoint.UsualDecimals, int exponent = 0)
    {
        Word(key).Raw("=");
        _bytes.Advance(FixedPoint.Format(_bytes.GetSpan(24), value, decimals, exponent));
        return this;
    }

    /// <summary>key=value of a length in metres, in the form's unit and with its decimals.</summary>
    public LineWords Length(string key, double metres) => Number(key, metres, form.Decimals, (int)form.Unit);

    /// <summary>text="…": printable ASCII, no quote within.</summary>
    public LineWords Text(string text)
    {
        Word("text=\"");
        foreach (var c in text)
        {
            _bytes.GetSpan(1)[0] = ReplyBytes.Quotable(c);
            _bytes.Advance(1);
        }

        return Raw("\"");
    }

    /// <summary>Ends the reply. Words that do not fit into the form's longest reply are left out from the end, each whole.</summary>
    public LineReply End()
    {
        if (_bytes.WrittenCount > form.Longest)
        {
            var kept = _bytes.WrittenSpan[.._fitting].ToArray();
            _bytes.ResetWrittenCount();
            _bytes.Write(kept);
        }

        return new(Raw(form.LineEnd)._bytes.WrittenMemory);
    }

    /// <summary>ASCII as it is.</summary>
    private LineWords Raw(string text)
    {
        _bytes.Advance(Encoding.ASCII.GetBytes(text, _bytes.GetSpan(text.Length)));
        return this;
    }
}
