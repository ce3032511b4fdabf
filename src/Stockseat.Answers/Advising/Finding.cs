namespace Stockseat.Answers.Advising;

/// <summary>One thing that a check of a revision found.</summary>
/// <param name="Severity">How grave it is.</param>
/// <param name="Where">The key in the file that it is about; null where the text alone says it.</param>
/// <param name="Text">What was found, and what to do; without a full stop at its end.</param>
public sealed record Finding(Severity Severity, string? Where, string Text)
{
    /// <summary>A fault whose text says where it is.</summary>
    public static Finding Fault(string text) => new(Severity.Fault, null, text);

    /// <summary>An advice about a key.</summary>
    public static Finding Advice(string where, string text) => new(Severity.Advice, where, text);
}
