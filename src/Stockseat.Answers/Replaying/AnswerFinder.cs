using Stockseat.Answers.Locate;

namespace Stockseat.Answers.Replaying;

/// <summary>Finds an answer, or a trial, among the entries before the one that is replayed.</summary>
/// <param name="serial">Its serial.</param>
/// <param name="isAway">Whether the entry would be in a ledger that was moved away or can't be read, so that nobody knows.</param>
/// <returns>Null when that serial is neither, or is away.</returns>
public delegate ServedBody? AnswerFinder(long serial, out bool isAway);
