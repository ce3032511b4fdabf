using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Adoption;

/// <summary>Whether a revision may be brought in force.</summary>
public enum AdoptionResult
{
    /// <summary>It may.</summary>
    Fit,

    /// <summary>There is no such file.</summary>
    Unknown,

    /// <summary>The file has faults.</summary>
    Faulty,

    /// <summary>The number was adopted once, with other values.</summary>
    Changed,

    /// <summary>A higher number is in force.</summary>
    Lower,
}

/// <summary>The verdict on one adoption.</summary>
/// <param name="Result">Whether it may be.</param>
/// <param name="Revision">The revision, when it is fit.</param>
/// <param name="Message">Why not, and what to do.</param>
public sealed record AdoptionVerdict(AdoptionResult Result, Revision? Revision, string Message);
