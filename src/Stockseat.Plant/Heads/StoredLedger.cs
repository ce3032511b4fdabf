using System.Globalization;
using Stockseat.Answers.Entries;

namespace Stockseat.Plant.Heads;

/// <summary>A ledger as the plant store has it.</summary>
/// <param name="Ledger">Its id.</param>
/// <param name="Cell">The cell of its newest asks; null: none has one.</param>
/// <param name="First">Its first serial.</param>
/// <param name="Last">Its newest serial.</param>
/// <param name="At">When the newest was written, by the clock of the cell.</param>
/// <param name="Stored">When the newest was stored, by the clock of the database.</param>
/// <param name="Closed">Whether it has ended and another one continues it.</param>
/// <param name="Differs">The first entry that the cell has in another form or no more, and since when; null: no difference was found.</param>
public sealed record StoredLedger(
    Guid Ledger, string? Cell, long First, long Last, DateTimeOffset At, DateTimeOffset Stored, bool Closed, (long Serial, DateTimeOffset Since)? Differs)
{
    /// <summary>The fixture and the revision of its newest entry that has both; null: none of the newest entries has.</summary>
    public (string Fixture, long Revision)? InForce { get; init; }

    /// <summary>Whether it was intact when it was verified the last time, up to which entry, and when; null: it was never verified.</summary>
    public (bool Intact, long To, DateTimeOffset At)? Verified { get; init; }

    /// <summary>The difference in words; null: none was found.</summary>
    public string? Fork => Differs is not var (serial, since) ? null : string.Create(
        CultureInfo.InvariantCulture, $"from entry {serial} on its cell has other entries, found {EntryTime.Text(since)}");
}
