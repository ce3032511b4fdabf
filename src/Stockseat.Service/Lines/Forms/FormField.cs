using System.Globalization;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Lines.Forms;

/// <summary>What a field of a template holds.</summary>
public enum FieldKind
{
    /// <summary>Letters, digits, point, underscore and hyphen.</summary>
    Word,

    /// <summary>A whole number, not below 0.</summary>
    Whole,

    /// <summary>column,row.</summary>
    Nest,

    /// <summary>A length, in the form's unit and with its decimals.</summary>
    Length,

    /// <summary>A component of a unit quaternion, with the form's decimals.</summary>
    Orientation,
}

/// <summary>A field that a template may have. An absent value is written as -, so that positions stay the same.</summary>
/// <param name="Name">Its name between braces.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Longest">The most characters; 0 where the form says it.</param>
/// <param name="MayBeAbsent">Whether - may be in its place.</param>
public sealed record FormField(string Name, FieldKind Kind, int Longest = 0, bool MayBeAbsent = false)
{
    /// <summary>The digits of the largest serial.</summary>
    private const int LongestSerial = 19;

    /// <summary>The characters of the longest fixture's name.</summary>
    private const int LongestFixture = 63;

    private static readonly Reason[] Reasons = [.. Enum.GetValues<Reason>().Where(r => r != Reason.None)];

    private static readonly FormField Tag = new("tag", FieldKind.Word, MayBeAbsent: true);
    private static readonly FormField Serial = new("serial", FieldKind.Whole, LongestSerial);

    /// <summary>The names of the expanded uncertainties in an answer, in the order of lines.</summary>
    public static IReadOnlyList<string> Uncertainties { get; } = ["ualong", "uacross", "ualongworst", "uacrossworst", "unormal"];

    /// <summary>The fields of an answer to locate.</summary>
    public static IReadOnlyList<FormField> OfOk { get; } =
    [
        Tag, Serial, new("fixture", FieldKind.Word, LongestFixture), new("revision", FieldKind.Whole, 10), new("purpose", FieldKind.Word, 5),
        new("nest", FieldKind.Nest, 13), new("column", FieldKind.Whole, 6), new("row", FieldKind.Whole, 6), new("diameter", FieldKind.Length),
        new("length", FieldKind.Length, MayBeAbsent: true),
        new("measurement", FieldKind.Whole, LongestSerial, MayBeAbsent: true), new("age", FieldKind.Whole, 10, MayBeAbsent: true),
        new("unit", FieldKind.Word, 2), new("load", FieldKind.Whole, LongestSerial, MayBeAbsent: true), new("left", FieldKind.Whole, 6, MayBeAbsent: true),
        new("first", FieldKind.Word, 3), new("firstnumber", FieldKind.Whole, 1),
        .. AnswerBody.Coordinates.Select(c => new FormField(c, c[0] == 'q' ? FieldKind.Orientation : FieldKind.Length)),
        .. Uncertainties.Select(u => new FormField(u, FieldKind.Length, MayBeAbsent: true)),
    ];

    /// <summary>The fields of the replies to measured, confirm, done, still and emptied.</summary>
    public static IReadOnlyList<FormField> OfDone { get; } =
    [
        Tag, Serial, new("fixture", FieldKind.Word, LongestFixture, MayBeAbsent: true), new("diameter", FieldKind.Length, MayBeAbsent: true),
        new("confirms", FieldKind.Whole, LongestSerial, MayBeAbsent: true),
    ];

    /// <summary>The fields of a refusal. A fixture's name is not among them: digits in it could be read as numbers.</summary>
    public static IReadOnlyList<FormField> OfRefused { get; } =
    [
        Tag, new("class", FieldKind.Word, Reasons.Max(r => ReasonInfo.Of(r).Class.ToString().Length)),
        new("reason", FieldKind.Word, Reasons.Max(r => ReasonInfo.Of(r).Name.Length)),
        new("number", FieldKind.Whole, Reasons.Max(r => ((int)r).ToString(CultureInfo.InvariantCulture).Length)),
    ];

    /// <summary>How many numbers a parser finds in it at least.</summary>
    public int LeastNumbers => Kind == FieldKind.Word || MayBeAbsent ? 0 : Kind == FieldKind.Nest ? 2 : 1;

    /// <summary>How many numbers a parser may find in it; a tag or a fixture's name counts as one.</summary>
    public int MostNumbers => Kind == FieldKind.Nest ? 2 : Kind != FieldKind.Word || Name is "tag" or "fixture" ? 1 : 0;

    /// <summary>Whether a character can be part of a field's value, so that next to a value it would belong to it.</summary>
    public static bool MayHold(char c) => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_' or '+';
}
