namespace Stockseat.Service.Examining;

/// <summary>What a check found, the worst last.</summary>
public enum Outcome
{
    /// <summary>It is as it should be.</summary>
    Good,

    /// <summary>It works, and somebody should look at it.</summary>
    Advice,

    /// <summary>Because of it the service does not start, or does not do what it should.</summary>
    Fault,

    /// <summary>It could not be checked.</summary>
    Unchecked,
}
