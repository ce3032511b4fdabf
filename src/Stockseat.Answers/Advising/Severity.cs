namespace Stockseat.Answers.Advising;

/// <summary>How grave a finding about a revision is.</summary>
public enum Severity
{
    /// <summary>It can't be adopted so.</summary>
    Fault = 1,

    /// <summary>It can be adopted, and somebody should know.</summary>
    Advice = 2,
}
