using Stockseat.Answers.Entries;
using Stockseat.Answers.Stock;

namespace Stockseat.Service.Answering;

/// <summary>What the configuration says about gauges and lots, as it goes into asks.</summary>
/// <param name="Freshness">How long a measurement may be used when its gauge does not say.</param>
/// <param name="Gauges">The gauges, by name.</param>
/// <param name="Lots">The lots, by name.</param>
public sealed record StockTerms(TimeSpan Freshness, IReadOnlyDictionary<string, GaugeTerms> Gauges, IReadOnlyDictionary<string, LotTerms> Lots)
{
    /// <summary>The terms of a gauge; null when it is not in the configuration. Without a gauge: the usual terms.</summary>
    public GaugeTerms? Of(string? gauge) => gauge is null ? new(null, null, Freshness) : Gauges.GetValueOrDefault(gauge);
}
