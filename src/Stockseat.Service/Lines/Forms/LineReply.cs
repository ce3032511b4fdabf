using System.Buffers;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Lines.Forms;

/// <summary>
/// One reply: the first word decides; a refusal carries no coordinate, no default, no last value. It is written straight into the memory from which it is
/// sent.
/// </summary>
public readonly struct LineReply
{
    private readonly Form? _form;
    private readonly string? _tag;
    private readonly EntryBody? _entry;
    private readonly Refusal? _refusal;
    private readonly bool _isStill;
    private readonly ReadOnlyMemory<byte> _bytes;

    /// <summary>A reply that exists as bytes.</summary>
    internal LineReply(ReadOnlyMemory<byte> bytes) => _bytes = bytes;

    private LineReply(Form form, string? tag, EntryBody? entry, Refusal? refusal, bool isStill = false) =>
        (_form, _tag, _entry, _refusal, _isStill) = (form, tag, entry, refusal, isStill);

    /// <summary>The reply with its line end, as bytes of their own.</summary>
    public ReadOnlyMemory<byte> Bytes
    {
        get
        {
            var bytes = new ArrayBufferWriter<byte>();
            WriteTo(bytes);
            return bytes.WrittenMemory;
        }
    }

    /// <summary>An ok to an ask or a push, in a client's form.</summary>
    public static LineReply Ok(Form form, string? tag, EntryBody entry) => new(form, tag, entry, null);

    /// <summary>An answer may still be used; in a client's form. It carries no coordinate.</summary>
    public static LineReply Still(Form form, string? tag, EntryBody answer) => new(form, tag, answer, null, isStill: true);

    /// <summary>A refusal in the form <c>named</c>.</summary>
    public static LineReply Refused(string? tag, Refusal refusal) => new(Form.Named, tag, null, refusal);

    /// <summary>A refusal in a client's form; a tag that it can't echo is left out.</summary>
    public static LineReply Refused(Form form, string? tag, Refusal refusal) => new(form, form.Echoed(tag), null, refusal);

    /// <summary>Writes the reply with its line end.</summary>
    public void WriteTo(IBufferWriter<byte> output)
    {
        if (_form is null)
        {
            output.Write(_bytes.Span);
            return;
        }

        var bytes = new ReplyBytes(output);
        switch (_entry)
        {
            case null: FormReplies.Refused(ref bytes, _form, _tag, _refusal!); break;
            case ServedBody answer when !_isStill: FormReplies.Answer(ref bytes, _form, _tag, answer); break;
            default: FormReplies.Done(ref bytes, _form, _tag, _entry); break;
        }

        bytes.Raw(_form.LineEnd);
        bytes.End();
    }
}
