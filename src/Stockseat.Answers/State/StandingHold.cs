namespace Stockseat.Answers.State;

/// <summary>A hold that stands.</summary>
/// <param name="By">Who is at the fixture.</param>
/// <param name="Why">Why.</param>
/// <param name="Serial">The entry since which it stands.</param>
/// <param name="At">The instant of that entry.</param>
public sealed record StandingHold(string By, string Why, long Serial, DateTimeOffset At);
