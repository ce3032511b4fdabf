namespace Stockseat.Service.Examining;

/// <summary>What a check found.</summary>
/// <param name="About">What was checked: a setting's name, or a few words.</param>
/// <param name="Outcome">What came out.</param>
/// <param name="Text">What it is, with its value; and what to do, unless all is well.</param>
public sealed record Finding(string About, Outcome Outcome, string Text)
{
    /// <summary>It is as it should be.</summary>
    public static Finding Good(string about, string text) => new(about, Outcome.Good, text);

    /// <summary>Somebody should look at it.</summary>
    public static Finding Advice(string about, string text) => new(about, Outcome.Advice, text);

    /// <summary>It has to be corrected.</summary>
    public static Finding Fault(string about, string text) => new(about, Outcome.Fault, text);
}
