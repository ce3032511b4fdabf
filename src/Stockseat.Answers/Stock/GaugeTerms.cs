using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Stock;

/// <summary>What the configuration says of a gauge.</summary>
/// <param name="Name">Its name; null when no gauge was named.</param>
/// <param name="AgreementMetres">How far its readings may spread; null: not judged.</param>
/// <param name="FreshFor">For how long its measurements may be used.</param>
public sealed record GaugeTerms(string? Name, double? AgreementMetres, TimeSpan FreshFor)
{
    /// <summary>How good its readings are; null when the configuration states nothing of that.</summary>
    public GaugeLimits? Limits { get; init; }
}
