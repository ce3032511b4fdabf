using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Asking;

/// <summary>A well-formed ask or push. What it leads to is decided in the order of the ledger.</summary>
/// <param name="Caller">Who asks.</param>
/// <param name="Fixture">Which fixture.</param>
public abstract record Ask(Caller Caller, string Fixture)
{
    /// <summary>The name of the verb, as refusals record it.</summary>
    public abstract string Verb { get; }

    /// <summary>The version of the rules by which it is decided: the newest, except for what a replay decides again.</summary>
    public int Rules { get; init; } = EntryBody.CurrentVersion;

    /// <summary>Why this client may not ask it, by the configuration; null when it may.</summary>
    public Refusal? Denied { get; init; }

    /// <summary>The unit of the lengths in a refusal's text: that of the service's display.</summary>
    public LengthUnit Shown { get; init; } = LengthUnit.Millimetre;

    /// <summary>The entry of a refusal with what is known about the ask, but without who asked.</summary>
    /// <param name="refusal">Why it is refused.</param>
    /// <param name="state">The state of the fixture, whose revision the entry names; null: it names none.</param>
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
