using Stockseat.Answers.Entries;

namespace Stockseat.Answers.State;

/// <summary>A lot that somebody described.</summary>
/// <param name="Terms">What is known of it.</param>
/// <param name="Serial">The entry that describes it.</param>
public sealed record DescribedLot(LotTerms Terms, long Serial);
