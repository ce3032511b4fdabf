using Stockseat.Answers.Entries;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;
using Stockseat.Sheets.Entries;

namespace Stockseat.Service.Pages.Entries;

/// <summary>An entry in a list.</summary>
/// <param name="Serial">Its serial.</param>
/// <param name="At">Its instant.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Fixture">Its fixture; "" when it has none.</param>
/// <param name="Who">Who asked; "" when nobody did.</param>
/// <param name="Text">What it says.</param>
/// <param name="Matters">Whether somebody should look at it: refusals, and what went wrong.</param>
public sealed record EntryLine(long Serial, string At, string Kind, string Fixture, string Who, string Text, bool Matters)
{
    /// <summary>What is said of an entry whose body can't be read.</summary>
    private const string Unread = "its body can't be read by this version of the program; run stockseat ledger verify";

    /// <summary>An entry of the ledger.</summary>
    public static EntryLine Of(EntryRow row, Display display)
    {
        var body = row.TryReadBody();
        return new(
            row.Serial, display.Times.Of(row.At), row.Kind, row.Fixture ?? "", EntryText.Who(row.Client, body?.Address, row.Tag),
            EntryText.Of(body, display.Length) ?? Unread,
            body is null or RefusalBody || row.Kind is Kinds.UncleanStop or Kinds.ClockStep or Kinds.RevisionRejected);
    }
}
