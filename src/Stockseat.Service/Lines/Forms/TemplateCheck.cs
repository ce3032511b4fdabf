namespace Stockseat.Service.Lines.Forms;

/// <summary>What in a single template could mislead a program that reads it.</summary>
internal static class TemplateCheck
{
    private static readonly string[] FixedValues = ["yes", "no", "pick", "place", "m", "mm", "um", "-"];

    private static readonly string[][] Triples = [["x", "y", "z"], ["qw", "qx", "qy", "qz"], ["bx", "by", "bz"], ["ox", "oy", "oz"]];

    /// <summary>What every template has to satisfy.</summary>
    public static IEnumerable<string> Faults(FormTemplate template)
    {
        if (template.StatusWord.Length == 0)
        {
            yield return "begins with no status word of its own: from its first word a program decides whether it may move; begin it with a word "
                + "such as ok or refused, then a separator";
        }

        for (var i = 0; i < template.Parts.Count; i++)
        {
            if (template.Parts[i].Field is { } field)
            {
                foreach (var fault in Neighbours(field, i == 0 ? null : template.Parts[i - 1], i == template.Parts.Count - 1 ? null : template.Parts[i + 1]))
                {
                    yield return fault;
                }
            }
        }
    }

    /// <summary>What an answer also has to have.</summary>
    public static IEnumerable<string> AnswerFaults(FormTemplate ok)
    {
        var names = ok.Fields.Select(f => f.Name).ToHashSet(StringComparer.Ordinal);
        if (!names.Contains("serial"))
        {
            yield return "has no {serial}: without it an answer can be neither confirmed nor found in the ledger; add it";
        }

        foreach (var triple in Triples.Where(t => t.Any(names.Contains) && !t.All(names.Contains)))
        {
            yield return $"has {Braced(triple.Where(names.Contains))} without {Braced(triple.Where(n => !names.Contains(n)))}: these belong "
                + $"together, and a program that uses only some of them moves to a wrong place; state all or none";
        }

        if (EndFault(ok, names) is { } fault)
        {
            yield return fault;
        }
    }

    private static string? EndFault(FormTemplate ok, HashSet<string> names)
    {
        var (mark, word) = (ok.EndMark, ok.EndWord);
        if (mark.Trim().Length == 0)
        {
            return "has no end mark: a line that was cut off within its last number would look complete; end it with a literal such as \" end\"";
        }

        if (mark.Any(char.IsAsciiDigit)
            || (word.Length > 0 && FixedValues.Any(v => v.StartsWith(word, StringComparison.Ordinal)))
            || (mark.Trim() == "," && names.Contains("nest")))
        {
            return $"ends with \"{mark}\", which a field's value may also have: a line that was cut off could look complete; end it with a literal such "
                + $"as \" end\"";
        }

        return ok.Parts.SkipLast(1).Any(p => p.Literal.Contains(mark, StringComparison.Ordinal))
            ? $"ends with \"{mark}\", which is also elsewhere in it: a line that was cut off there would look complete; end it with a literal that "
                + $"is only at its end, such as \" end\""
            : null;
    }

    private static IEnumerable<string> Neighbours(FormField field, TemplatePart? before, TemplatePart? after)
    {
        if (after?.Field is { } next)
        {
            yield return $"has nothing between {{{field.Name}}} and {{{next.Name}}}: where the first one ends can't be seen; put a separator such as a space "
                + $"or ; between them";
        }

        // A letter before a number is not part of a value, as in x{bx}; before a word it would be read as part of the word.
        if (before is { Field: null, Literal: [.., var left] } && Touches(left, field) && (field.Kind == FieldKind.Word || !char.IsAsciiLetter(left)))
        {
            yield return $"has '{left}' right before {{{field.Name}}}: it would be read as part of the value; put a character there that no value "
                + $"holds, such as a space, = or ;";
        }

        if (after is { Field: null, Literal: [var right, ..] } && Touches(right, field))
        {
            yield return $"has '{right}' right after {{{field.Name}}}: it would be read as part of the value; put a character there that no value "
                + $"holds, such as a space or ;";
        }
    }

    private static bool Touches(char c, FormField field) => FormField.MayHold(c) || (c == ',' && field.Kind == FieldKind.Nest);

    private static string Braced(IEnumerable<string> names) => string.Join(' ', names.Select(n => $"{{{n}}}"));
}
