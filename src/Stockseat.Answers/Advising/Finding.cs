namespace Stockseat.Answers.Advising;

/// <summary>One thing that a check of a revision found.</summary>
/// <param name="Severity">How serious it is.</param>
/// <param name="Where">The key in the file that it is about; null when the text already names the place.</param>
/// <param name="Text">The finding, and what to do about it; without a full stop at the end.</param>
public sealed record Finding(Severity Severity, string? Where, string Text)
{
    /// <summary>A fault whose text names the place.</summary>
    public static Finding Fault(string text) => new(Severity.Fault, null, text);

    /// <summary>Advice about a key.</summary>
    public static Finding Advice(string where, string text) => new(Severity.Advice, where, text);
}
