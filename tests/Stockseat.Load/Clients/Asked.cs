using Stockseat.Load.Figures;

namespace Stockseat.Load.Clients;

/// <summary>What clients received in a period.</summary>
/// <param name="ASecond">Answers a second; only those that came within the period count.</param>
/// <param name="All">All answers, including those that came after the period.</param>
/// <param name="Latencies">How long each answer took, as the client sees it.</param>
internal sealed record Asked(double ASecond, long All, Latencies Latencies);
