namespace Stockseat.Answers.State;

/// <summary>The newest step back of the clock: the age of a measurement from before it can't be read off the clock.</summary>
/// <param name="Serial">Its entry.</param>
/// <param name="Seconds">How far the clock was set back, above 0; at a start at least that far.</param>
/// <param name="AtStart">Whether the step was found at a start, by the instant of the last entry.</param>
public sealed record StepBack(long Serial, double Seconds, bool AtStart);
