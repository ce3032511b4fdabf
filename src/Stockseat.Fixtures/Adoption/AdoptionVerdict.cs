using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Adoption;

/// <summary>Whether a revision may be put into force.</summary>
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

/// <summary>The verdict on one request to adopt.</summary>
/// <param name="Result">Whether the revision may be put into force.</param>
/// <param name="Revision">The revision, when it may.</param>
/// <param name="Message">Why it may not, and what to do.</param>
public sealed record AdoptionVerdict(AdoptionResult Result, Revision? Revision, string Message);
