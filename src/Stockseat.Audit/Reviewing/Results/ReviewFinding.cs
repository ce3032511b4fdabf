namespace Stockseat.Audit.Reviewing.Results;

/// <summary>Something in the window that a person should look at.</summary>
/// <param name="Rule">Which rule found it.</param>
/// <param name="Serials">The entries that it is about, in order.</param>
/// <param name="Fixture">The fixture; null when it is about none.</param>
/// <param name="What">What happened, in a sentence with its numbers.</param>
/// <param name="Why">Why it matters.</param>
/// <param name="Next">What to look at next.</param>
public sealed record ReviewFinding(FindingRule Rule, IReadOnlyList<long> Serials, string? Fixture, string What, string Why, string Next);
