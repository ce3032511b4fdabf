namespace Stockseat.Answers.State;

/// <summary>The shift that was confirmed last, in base, in metres.</summary>
public sealed record ConfirmedShift(long Serial, double X, double Y, double Z);
