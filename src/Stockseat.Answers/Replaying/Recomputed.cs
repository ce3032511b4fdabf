using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Replaying;

/// <summary>The result of deciding an entry again.</summary>
/// <param name="Body">The entry that results now; null when it could not be computed.</param>
/// <param name="Given">Whether it rests on something that no ledger holds, and that was taken from its recorded outcome.</param>
/// <param name="Fault">Why it could not be computed; null when it could.</param>
public readonly record struct Recomputed(EntryBody? Body, bool Given, string? Fault)
{
    internal static Recomputed Of(EntryBody body, bool given = false) => new(body, given, null);

    internal static Recomputed Not(string fault) => new(null, false, fault);
}
