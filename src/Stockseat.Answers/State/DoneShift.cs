namespace Stockseat.Answers.State;

/// <summary>The shift of an answer that was carried out, in base, in metres.</summary>
/// <param name="Serial">The entry that says so.</param>
/// <param name="X">Along base x.</param>
/// <param name="Y">Along base y.</param>
/// <param name="Z">Along base z.</param>
public sealed record DoneShift(long Serial, double X, double Y, double Z);
