using System.Collections.Frozen;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;

namespace Stockseat.Service.Clients;

/// <summary>What a client's asks have to say, by its entry in the configuration: what it leaves out is refused.</summary>
internal static class Requirements
{
    private static readonly FrozenDictionary<string, Func<Ask, Refusal?>> All = new Dictionary<string, Func<Ask, Refusal?>>
    {
        ["lot"] = ask => ask is LocateAsk { Lot: null } or MeasureAsk { Lot: null } or LoadedAsk { Lot: null } ? Missing(ask, "lot", "lot=") : null,
        ["gauge"] = ask => ask is MeasureAsk { Gauge: null } ? Missing(ask, "gauge", "gauge=") : null,
        ["readback"] = ask => ask is ConfirmAsk { ReadBack.Count: 0 } ? Missing(ask, "readback", "bx= by= bz= of the answer") : null,
        ["measured"] = ask => ask is LocateAsk { Purpose: Purpose.Pick, DiameterMetres: not null } ? Stated() : null,
        ["tag"] = ask => ask is LocateAsk or MeasureAsk or LoadedAsk or AnswerAsk && ask.Caller.Tag is null ? Missing(ask, "tag", "tag=") : null,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>The names that an entry may list.</summary>
    public static IReadOnlyList<string> Names { get; } = ["lot", "gauge", "readback", "measured", "tag"];

    /// <summary>The first refusal by what is required; null when nothing is left out.</summary>
    public static Refusal? Lacking(IReadOnlyList<string> required, Ask ask)
    {
        foreach (var name in required)
        {
            if (All[name](ask) is { } refusal)
            {
                return refusal;
            }
        }

        return null;
    }

    private static Refusal Missing(Ask ask, string name, string key) =>
        Refusal.Of(Reason.KeyMissing, $"{ask.Verb} needs {key}, since the configuration of this client requires {name}", (Refusal.Required, name));

    private static Refusal Stated() => Refusal.Of(
        Reason.NotMeasured,
        "a pick with a stated diameter is not answered, since the configuration of this client requires that the diameter was measured",
        (Refusal.Required, "measured"));
}
