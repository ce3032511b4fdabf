using Stockseat.Answers.Entries;
using Stockseat.Answers.Stock;

namespace Stockseat.Service.Answering;

/// <summary>What the configuration says of gauges and lots, as it goes into asks.</summary>
/// <param name="Freshness">For how long a measurement may be used whose gauge says nothing else.</param>
/// <param name="Gauges">The gauges, by name.</param>
/// <param name="Lots">The lots, by name.</param>
public sealed record StockTerms(TimeSpan Freshness, IReadOnlyDictionary<string, GaugeTerms> Gauges, IReadOnlyDictionary<string, LotTerms> Lots)
{
    /// <summary>A gauge's; null when it is not in the configuration. No gauge: the usual ones.</summary>
    public GaugeTerms? Of(string? gauge) => gauge is null ? new(null, null, Freshness) : Gauges.GetValueOrDefault(gauge);
}
