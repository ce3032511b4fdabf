using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Asking;

/// <summary>A well-formed ask or push. What it means is decided in the ledger's order.</summary>
/// <param name="Caller">Who asks.</param>
/// <param name="Fixture">Which fixture.</param>
public abstract record Ask(Caller Caller, string Fixture)
{
    /// <summary>The verb's name, as refusals record it.</summary>
    public abstract string Verb { get; }

    /// <summary>Why this client may not ask it, from the configuration; null when it may.</summary>
    public Refusal? Denied { get; init; }

    /// <summary>The unit in which a refusal's text has its lengths: that of the service's display.</summary>
    public LengthUnit Shown { get; init; } = LengthUnit.Millimetre;

    /// <summary>A refusal's entry with what is known of the ask, but for who asked.</summary>
    /// <param name="refusal">Why it is refused.</param>
    /// <param name="state">The fixture's state, whose revision it names; null: it names none.</param>
    public RefusalBody Refuse(Refusal refusal, FixtureState? state = null) => new()
    {
        Asked = Verb,
        Reason = refusal.Info.Name,
        Number = (int)refusal.Reason,
        Text = refusal.Text,
        Limits = refusal.Limits,
        Decided = refusal,
        Fixture = Fixture.Length == 0 ? null : Fixture,
        Revision = state?.InForce?.Number,
        Digest = state?.InForce?.Digest,
    };
}
