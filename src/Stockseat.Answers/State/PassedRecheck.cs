namespace Stockseat.Answers.State;

/// <summary>A recheck that passed.</summary>
/// <param name="Serial">Its entry.</param>
/// <param name="MasterMetres">The diameter of the master, in metres.</param>
/// <param name="Column">The nest's column.</param>
/// <param name="Row">The nest's row.</param>
public sealed record PassedRecheck(long Serial, double MasterMetres, int Column, int Row);
