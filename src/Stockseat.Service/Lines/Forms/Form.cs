using Stockseat.Answers.Entries;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Lines.Forms;

/// <summary>How the replies to a client look, so that its simple parser can read them.</summary>
public sealed record Form
{
    /// <summary>The largest length that a template has room for, positive or negative, in metres.</summary>
    public const int FarthestMetres = 999;

    /// <summary>The answer of the form <c>named</c> as a template, for checks that need a template.</summary>
    private static readonly FormTemplate NamedOk = Made(
        string.Join(' ', FormField.OfOk.Where(f => f.Name is not ("column" or "row" or "firstnumber" or "load" or "left" or "length" or "unormal"))
            .Select(f => $"{f.Name}={{{f.Name}}}").Prepend("ok")
            .Append("end")),
        FormField.OfOk);

    /// <summary>The built-in form that names every field.</summary>
    public static Form Named { get; } = new() { Name = "named" };

    /// <summary>The built-in form whose replies have 80 characters at most: whole micrometres at fixed positions.</summary>
    public static Form Short { get; } = new()
    {
        Name = "short",
        Ok = Made("ok {tag} {serial} {first} {bx} {by} {bz} end", FormField.OfOk),
        Done = Made("ok {tag} {serial} end", FormField.OfDone),
        Refused = Made("refused {tag} {class} {reason}", FormField.OfRefused),
        Unit = ServedUnit.Micrometre,
        Decimals = 0,
        Longest = 80,
        LongestTag = 16,
    };

    /// <summary>Its name in the configuration.</summary>
    public required string Name { get; init; }

    /// <summary>An answer to locate; null: every field by its name.</summary>
    public FormTemplate? Ok { get; init; }

    /// <summary>An ok to measured, confirm, done, still and emptied; null: every field by its name.</summary>
    public FormTemplate? Done { get; init; }

    /// <summary>A refusal; null: class, reason and text by their names.</summary>
    public FormTemplate? Refused { get; init; }

    /// <summary>The unit of lengths.</summary>
    public ServedUnit Unit { get; init; } = ServedUnit.Metre;

    /// <summary>The decimals of lengths and orientations, 0 to 12.</summary>
    public int Decimals { get; init; } = FixedPoint.UsualDecimals;

    /// <summary>The characters that lengths and orientations are padded to, with spaces on the left, 1 to 40; 0: not padded.</summary>
    public int Width { get; init; }

    /// <summary>What ends a reply: LF, CR or CR LF.</summary>
    public string LineEnd { get; init; } = "\n";

    /// <summary>The unit of lengths that the client sends without one: mm, m, um or in; null: such lengths are refused.</summary>
    public string? BareUnit { get; init; }

    /// <summary>The most characters of a reply without its end, 1 to 1000; null: no limit.</summary>
    public int? Longest { get; init; }

    /// <summary>The most characters of a tag, 1 to 40.</summary>
    public int LongestTag { get; init; } = NameText.Longest;

    /// <summary>The answer as a template, also when it is the one of the form <c>named</c>.</summary>
    public FormTemplate Answer => Ok ?? NamedOk;

    /// <summary>Why a tag can't be echoed in this form, in words; null when it can.</summary>
    public string? Bars(string tag) =>
        tag.Length > LongestTag ? $"has {tag.Length} characters; in the form {Name} it has at most {LongestTag}"
        : Ok is not null && Ok.EndWord.Length > 0 && tag.StartsWith(Ok.EndWord, StringComparison.Ordinal) && Ok.Fields.Any(f => f.Name == "tag")
            ? $"begins with '{Ok.EndWord}', which ends an answer in the form {Name}: a line that was cut off in it would look complete"
        : null;

    /// <summary>The tag when it can be echoed in this form; otherwise null.</summary>
    public string? Echoed(string? tag) => tag is null || Bars(tag) is not null ? null : tag;

    /// <summary>The most characters of a reply from a template, without its end.</summary>
    public int LongestOf(FormTemplate template) => template.Parts.Sum(p => p.Field is { } f ? LongestOf(f) : p.Literal.Length);

    /// <summary>The most characters of a field's value.</summary>
    public int LongestOf(FormField field) => field.Kind switch
    {
        FieldKind.Length => Math.Max(Width, "-999".Length + (int)Unit + Fraction),
        FieldKind.Orientation => Math.Max(Width, "-1".Length + Fraction),
        _ => field.Name == "tag" ? LongestTag : field.Longest,
    };

    private int Fraction => Decimals == 0 ? 0 : Decimals + 1;

    private static FormTemplate Made(string text, IReadOnlyList<FormField> fields)
    {
        var faults = new List<string>();
        return FormTemplate.Parse(text, fields, faults) ?? throw new InvalidOperationException(string.Join("; ", faults));
    }
}
