using System.Buffers;
using Stockseat.Answers.Entries;

namespace Stockseat.Service.Lines.Forms;

/// <summary>A reply that is made word by word, each field with its name.</summary>
/// <param name="form">How the client's replies look.</param>
public sealed class NamedReply(Form form)
{
    private readonly ArrayBufferWriter<byte> _bytes = new(512);
    private int _fitting;

    /// <summary>Begins an ok in the form <c>named</c>.</summary>
    public static NamedReply Ok(string? tag) => Ok(Form.Named, tag);

    /// <summary>Begins an ok whose fields are named.</summary>
    public static NamedReply Ok(Form form, string? tag)
    {
        var reply = new NamedReply(form).Word("ok");
        return tag is null ? reply : reply.Pair("tag", tag);
    }

    /// <summary>A word.</summary>
    public NamedReply Word(string word)
    {
        var bytes = Next();
        bytes.Raw(word);
        bytes.End();
        return this;
    }

    /// <summary>key=value, for a value without spaces.</summary>
    public NamedReply Pair(string key, string value)
    {
        var bytes = Next(key);
        bytes.Raw(value);
        bytes.End();
        return this;
    }

    /// <summary>key=value.</summary>
    public NamedReply Pair(string key, long value)
    {
        var bytes = Next(key);
        bytes.Whole(value);
        bytes.End();
        return this;
    }

    /// <summary>key=value with fixed decimals.</summary>
    /// <param name="key">The key.</param>
    /// <param name="value">The value; finite.</param>
    /// <param name="decimals">0 to 12.</param>
    /// <param name="exponent">The power of ten that it is multiplied by first.</param>
    public NamedReply Number(string key, double value, int decimals = FixedPoint.UsualDecimals, int exponent = 0)
    {
        var bytes = Next(key);
        bytes.Fixed(value, decimals, exponent, width: 0);
        bytes.End();
        return this;
    }

    /// <summary>key=value of a length in metres, in the form's unit and with its decimals.</summary>
    public NamedReply Length(string key, double metres) => Number(key, metres, form.Decimals, (int)form.Unit);

    /// <summary>text="…": printable ASCII, no quote within.</summary>
    public NamedReply Text(string text)
    {
        var bytes = Next();
        bytes.Text(text);
        bytes.End();
        return this;
    }

    /// <summary>Ends the reply. Words that do not fit into the form's longest reply are left out at the end, each of them completely.</summary>
    public LineReply End()
    {
        if (_bytes.WrittenCount > form.Longest)
        {
            var kept = _bytes.WrittenSpan[.._fitting].ToArray();
            _bytes.ResetWrittenCount();
            _bytes.Write(kept);
        }

        var bytes = new ReplyBytes(_bytes);
        bytes.Raw(form.LineEnd);
        bytes.End();
        return new(_bytes.WrittenMemory);
    }

    /// <summary>Begins the next word; the words so far may be all that fits.</summary>
    private ReplyBytes Next()
    {
        var begun = _bytes.WrittenCount;
        var bytes = new ReplyBytes(_bytes);
        if (begun > 0)
        {
            _fitting = begun <= form.Longest ? begun : _fitting;
            bytes.Raw(" "u8);
        }

        return bytes;
    }

    private ReplyBytes Next(string key)
    {
        var bytes = Next();
        bytes.Raw(key);
        bytes.Raw("="u8);
        return bytes;
    }
}
