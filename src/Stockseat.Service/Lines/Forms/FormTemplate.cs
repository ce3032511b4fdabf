using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Lines.Forms;

/// <summary>A piece of a template: either a literal or a field.</summary>
/// <param name="Literal">The text as it is sent; empty for a field.</param>
/// <param name="Field">The field; null for a literal.</param>
public readonly record struct TemplatePart(string Literal, FormField? Field);

/// <summary>A reply's text with fields in it, such as <c>ok {serial} {bx} {by} {bz} end</c>.</summary>
public sealed class FormTemplate
{
    private FormTemplate(IReadOnlyList<TemplatePart> parts) => Parts = parts;

    /// <summary>Its pieces in their order; no two literals follow each other.</summary>
    public IReadOnlyList<TemplatePart> Parts { get; }

    /// <summary>Its fields in their order.</summary>
    public IEnumerable<FormField> Fields => Parts.Select(p => p.Field).OfType<FormField>();

    /// <summary>The word that it begins with; empty when it begins with none, or when a field follows it at once.</summary>
    public string StatusWord
    {
        get
        {
            var first = Parts.Count == 0 ? "" : Parts[0].Literal;
            var word = first[..first.TakeWhile(FormField.MayHold).Count()];
            return word.Length == first.Length && Parts.Count > 1 ? "" : word;
        }
    }

    /// <summary>The literal after its last field; empty when there is none.</summary>
    public string EndMark => Parts.Count > 1 ? Parts[^1].Literal : "";

    /// <summary>The letters and digits of the end mark; empty when it has none.</summary>
    public string EndWord => new([.. EndMark.SkipWhile(c => !FormField.MayHold(c)).TakeWhile(FormField.MayHold)]);

    /// <summary>The text that it was read from.</summary>
    public string Text => string.Concat(Parts.Select(p => p.Field is { } f ? $"{{{f.Name}}}" : p.Literal));

    /// <summary>How many numbers a parser finds in a reply at least.</summary>
    public int LeastNumbers => Parts.Sum(p => p.Field?.LeastNumbers ?? DigitRuns(p.Literal));

    /// <summary>How many numbers a parser may find in a reply.</summary>
    public int MostNumbers => Parts.Sum(p => p.Field?.MostNumbers ?? DigitRuns(p.Literal));

    /// <summary>Reads a template: printable ASCII and fields between braces.</summary>
    /// <param name="text">The text.</param>
    /// <param name="known">The fields that it may hold.</param>
    /// <param name="faults">What is wrong with it is added here.</param>
    /// <returns>The template; null when there is a fault.</returns>
    public static FormTemplate? Parse(string text, IReadOnlyList<FormField> known, List<string> faults)
    {
        var (parts, before) = (new List<TemplatePart>(), faults.Count);
        if (text.Any(c => c is < ' ' or > '~'))
        {
            faults.Add("holds characters other than printable ASCII (0x20 to 0x7E), which lines can't have; take them out");
        }

        for (var at = 0; at < text.Length;)
        {
            var brace = text.AsSpan(at).IndexOfAny('{', '}');
            var literal = brace < 0 ? text[at..] : text[at..(at + brace)];
            if (literal.Length > 0)
            {
                parts.Add(new(literal, null));
                at += literal.Length;
                continue;
            }

            var end = text.IndexOf('}', at);
            if (text[at] == '}' || end < 0)
            {
                faults.Add($"has a '{text[at]}' at character {at + 1} that does not belong to a field; fields are written {{serial}}, and a brace can't be "
                    + $"sent");
                return null;
            }

            Take(text[(at + 1)..end], known, parts, faults);
            at = end + 1;
        }

        return faults.Count > before ? null : new(parts);
    }

    /// <summary>The template up to its serial, followed by its end mark; null when that needs fields that other replies do not have.</summary>
    /// <param name="known">The fields that the others have.</param>
    public FormTemplate? UpToSerial(IReadOnlyList<FormField> known)
    {
        var parts = new List<TemplatePart>();
        foreach (var part in Parts)
        {
            var field = part.Field is null ? null : known.FirstOrDefault(f => f.Name == part.Field.Name);
            if (part.Field is not null && field is null)
            {
                return null;
            }

            parts.Add(part with { Field = field });
            if (field?.Name == "serial")
            {
                return EndMark.Length == 0 ? new(parts) : new([.. parts, Parts[^1]]);
            }
        }

        return null;
    }

    private static void Take(string name, IReadOnlyList<FormField> known, List<TemplatePart> parts, List<string> faults)
    {
        if (known.FirstOrDefault(f => f.Name == name) is not { } field)
        {
            faults.Add($"has a field {{{Refusal.Shown(name)}}}, which is not known; the fields are {string.Join(' ', known.Select(f => f.Name))}");
        }
        else if (parts.Any(p => p.Field == field))
        {
            faults.Add($"has {{{name}}} twice; keep one");
        }
        else
        {
            parts.Add(new("", field));
        }
    }

    private static int DigitRuns(string literal) => literal.Where((c, i) => char.IsAsciiDigit(c) && (i == 0 || !char.IsAsciiDigit(literal[i - 1]))).Count();
}
