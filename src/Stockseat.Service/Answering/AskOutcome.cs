using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Answering;

/// <summary>What became of an ask: the entry that says what was asked for, or why it was refused. Always one of both.</summary>
public readonly struct AskOutcome
{
    private readonly object _is;

    private AskOutcome(object what) => _is = what;

    /// <summary>Why it was refused, whether or not an entry says so; null when it was not.</summary>
    public Refusal? Refusal => _is as Refusal;

    /// <summary>The entry, which is on the disk, of an ask that was not refused.</summary>
    public EntryBody Entry => (EntryBody)_is;

    /// <summary>What an entry says.</summary>
    public static AskOutcome Of(EntryBody entry) => new(entry is RefusalBody refused ? refused.Refusal : entry);

    /// <summary>A refusal.</summary>
    public static AskOutcome Of(Refusal refusal) => new(refusal);
}
