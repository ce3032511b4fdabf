using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Answering;

/// <summary>The outcome of an ask: either its entry, or why it was refused.</summary>
public readonly struct AskOutcome
{
    private readonly object _is;

    private AskOutcome(object what) => _is = what;

    /// <summary>Why it was refused, with or without an entry; null when it was not refused.</summary>
    public Refusal? Refusal => _is as Refusal;

    /// <summary>The entry, which is on the disk, of an ask that was not refused.</summary>
    public EntryBody Entry => (EntryBody)_is;

    /// <summary>The outcome that an entry records.</summary>
    public static AskOutcome Of(EntryBody entry) => new(entry is RefusalBody refused ? refused.Refusal : entry);

    /// <summary>A refusal.</summary>
    public static AskOutcome Of(Refusal refusal) => new(refusal);
}
