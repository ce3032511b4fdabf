using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>An entry with its body read.</summary>
/// <param name="Row">The row, byte for byte.</param>
/// <param name="Body">Its body; null when this version can't read it, or when the service would not have written it.</param>
public sealed record ReviewEntry(EntryRow Row, EntryBody? Body)
{
    /// <summary>Why its body can't be read though its kind is known; null when it can.</summary>
    public string? Unreadable { get; init; }

    /// <summary>Its number in the ledger.</summary>
    public long Serial => Row.Serial;

    /// <summary>Its own instant; where the column has none, which only an edited one can lack, the earliest instant.</summary>
    public DateTimeOffset At => EntryTime.TryParse(Row.At, out var at) ? at : EntryTime.Earliest;

    /// <summary>Reads an entry's body.</summary>
    /// <param name="row">The row.</param>
    public static ReviewEntry Of(EntryRow row)
    {
        try
        {
            return new(row, row.ReadBody());
        }
        catch (JsonException e)
        {
            return new(row, null) { Unreadable = e.Message.TrimEnd('.') };
        }
    }
}
