namespace Stockseat.Answers.Reasons;

/// <summary>A refusal: a value, not an exception.</summary>
/// <param name="Reason">Why.</param>
/// <param name="Text">What, which value, the limit, what to do next.</param>
/// <param name="Limits">The numbers behind it, by name; null when there are none.</param>
public sealed record Refusal(Reason Reason, string Text, IReadOnlyDictionary<string, string>? Limits = null)
{
    /// <summary>What belongs to the reason.</summary>
    public ReasonInfo Info => ReasonInfo.Of(Reason);

    /// <summary>A refusal whose text ends with the reason's advice.</summary>
    public static Refusal Of(Reason reason, string what, params (string Name, string Value)[] limits) => new(
        reason, $"{what}; {ReasonInfo.Of(reason).Advice}", limits.Length == 0 ? null : limits.ToDictionary(l => l.Name, l => l.Value));
}
