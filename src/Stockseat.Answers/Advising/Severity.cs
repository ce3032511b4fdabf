namespace Stockseat.Answers.Advising;

/// <summary>How serious a finding about a revision is.</summary>
public enum Severity
{
    /// <summary>The revision can't be adopted as it is.</summary>
    Fault = 1,

    /// <summary>The revision can be adopted, but somebody should know about the finding.</summary>
    Advice = 2,
}
