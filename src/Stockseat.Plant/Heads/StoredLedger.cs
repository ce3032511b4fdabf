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
    Guid Ledger, string? Cell, long First, long Last, DateTimeOffset At, DateTimeOffset Stored, bool Closed, (long Serial, DateTimeOffset Since)? Differs);
