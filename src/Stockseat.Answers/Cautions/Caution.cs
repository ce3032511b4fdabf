namespace Stockseat.Answers.Cautions;

/// <summary>
/// The cautions that stand wherever people read numbers that move a robot: on every page, card and drawing, and at the end of texts on a terminal. They are
/// for people: no JSON and no CSV has them. All of them are stated here and nowhere else.
/// </summary>
public static class Caution
{
    /// <summary>What a robot can do.</summary>
    public const string Motion = "A robot's motion can injure and destroy.";

    /// <summary>How an answer that is marked first is run.</summary>
    public const string First = "Run an answer marked first at reduced speed, with people clear.";

    /// <summary>What a program does when it gets no answer.</summary>
    public const string NoAnswer = "On a refusal, a time-out or a lost connection: stop and call; never reuse the last shift.";

    /// <summary>What the shift is added to.</summary>
    public const string Shift = "Add the shift to the taught origin, never to an origin that was already shifted.";

    /// <summary>What else changes with the stock.</summary>
    public const string Diameter = "The diameter also changes approach points, the chuck's grip, payload and tipping: check each.";

    /// <summary>What touching nests needs.</summary>
    public const string Touching = "Touching nests needs the teaching mode, reduced speed and an enabling device.";

    /// <summary>How long a printed number holds.</summary>
    public const string Printed = "A printed card, drawing or table is void after any adoption.";

    /// <summary>The standards to go by.</summary>
    public const string Standards = "See ISO 10218-1 and -2:2025, ANSI/A3 R15.06-2025 and ISO 12100.";

    /// <summary>What stands above all that is said here.</summary>
    public const string Local = "Local codes and licensed practice come first.";

    /// <summary>What it is not.</summary>
    /// <param name="what">What it is said of, as the beginning of a sentence, such as "This card".</param>
    public static string NotSafety(string what) => $"{what} is not a safety function and replaces none.";

    /// <summary>The short form: three sentences, with more between them where something needs its own.</summary>
    /// <param name="what">What is not a safety function, as the beginning of a sentence, such as "This table".</param>
    /// <param name="more">The sentences that matter for what is shown.</param>
    public static string Short(string what, params string[] more) => string.Join(' ', (string[])[Motion, NotSafety(what), .. more, Local]);

    /// <summary>The full form: all cautions, one a line.</summary>
    /// <param name="what">What is not a safety function, as the beginning of a sentence, such as "Stockseat".</param>
    public static IReadOnlyList<string> Full(string what) =>
        [Motion, NotSafety(what), First, Shift, NoAnswer, Diameter, Touching, Printed, Standards, Local];
}
