namespace Stockseat.Answers.State;

/// <summary>The newest step back of the clock: how old a measurement from before it is, nobody can tell by the clock.</summary>
/// <param name="Serial">Its entry.</param>
/// <param name="Seconds">How far the clock was set back, above 0; at a start that much at least.</param>
/// <param name="AtStart">Whether it was found at a start, by the last entry's instant.</param>
public sealed record StepBack(long Serial, double Seconds, bool AtStart);
