using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Stock;

/// <summary>What a gauge of the configuration promises.</summary>
/// <param name="Name">Its name; null when no gauge was named.</param>
/// <param name="AgreementMetres">How far readings may spread; null: not judged.</param>
/// <param name="FreshFor">For how long its measurement may be used.</param>
public sealed record GaugeTerms(string? Name, double? AgreementMetres, TimeSpan FreshFor)
{
    /// <summary>How sure its readings are; null when it states nothing of that.</summary>
    public GaugeLimits? Limits { get; init; }
}
