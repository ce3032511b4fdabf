using Stockseat.Answers.State;

namespace Stockseat.Sheets.Cards;

/// <summary>Whether a revision is in force, as far as is known.</summary>
/// <param name="Is">Whether it is; null: nobody knows.</param>
/// <param name="Why">What is in force instead, or why nobody knows; empty when it is in force.</param>
/// <param name="Refused">Why the service now refuses all asks for the fixture; null when it does not, or when that is not known.</param>
/// <param name="Lacking">The rechecks that are lacking until it is proven; none when it is proven; null when that is not known, or it is not in
/// force.</param>
public sealed record InForce(bool? Is, string Why, string? Refused, IReadOnlyList<Proof.Lack>? Lacking = null)
{
    /// <summary>Whether it is, in words.</summary>
    public string Head => Is switch { true => "in force", false => "NOT IN FORCE", null => "NOT KNOWN whether it is in force" };

    /// <summary>The same with the reason.</summary>
    public string Said => Why.Length > 0 ? $"{Head}: {Why}" : Head;
}
