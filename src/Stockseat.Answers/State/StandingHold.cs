namespace Stockseat.Answers.State;

/// <summary>A hold that was not released yet.</summary>
/// <param name="By">Who is at the fixture.</param>
/// <param name="Why">The reason that they gave.</param>
/// <param name="Serial">The entry with which it began.</param>
/// <param name="At">The instant of that entry.</param>
public sealed record StandingHold(string By, string Why, long Serial, DateTimeOffset At);
