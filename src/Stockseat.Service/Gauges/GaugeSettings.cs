using Stockseat.Answers.Stock;

namespace Stockseat.Service.Gauges;

/// <summary>A gauge.</summary>
/// <param name="Terms">Its limits and how long its measurements may be used.</param>
/// <param name="Unit">The unit of its bare numbers; null: not stated.</param>
/// <param name="MasterMetres">The diameter of the master that it is set with; null: not stated.</param>
public sealed record GaugeSettings(GaugeTerms Terms, string? Unit, double? MasterMetres);
