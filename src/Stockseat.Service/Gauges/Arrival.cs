namespace Stockseat.Service.Gauges;

/// <summary>When a reading came.</summary>
/// <param name="At">By the clock's counter.</param>
/// <param name="Since">The last entry of the ledger at that time.</param>
public readonly record struct Arrival(long At, long Since);
