namespace Stockseat.Audit.Reviewing.Results;

/// <summary>Lot and diameter of a fixture before and after: around the first finding, or in its last two answers of one purpose before the instant.</summary>
/// <param name="Fixture">The fixture.</param>
/// <param name="Before">What was answered for before; null when no such answer is known.</param>
/// <param name="After">What was answered for after; null when nothing was asked since.</param>
/// <param name="Text">The same in a sentence.</param>
public sealed record ReviewHeadline(string Fixture, StockAnswered? Before, StockAnswered? After, string Text);
