using Stockseat.Load.Figures;

namespace Stockseat.Load.Clients;

/// <summary>What clients got in a while.</summary>
/// <param name="ASecond">Answers a second; only those that came within the time count.</param>
/// <param name="All">All answers, those that came after it too.</param>
/// <param name="Latencies">How long each took, in the client's eyes.</param>
internal sealed record Asked(double ASecond, long All, Latencies Latencies);
