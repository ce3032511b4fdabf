using System.Text.Json;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Reviewing.Rules;

namespace Stockseat.Ledger.Reviewing;

/// <summary>An entry with its body read.</summary>
/// <param name="Row">The row, byte for byte.</param>
/// <param name="Body">Its body; null when this version can't read it, or it is none that the service would have written.</param>
public sealed record ReviewEntry(EntryRow Row, EntryBody? Body)
{
    /// <summary>Its number in the ledger.</summary>
    public long Serial => Row.Serial;

    /// <summary>Its own instant; of a column that is none, which only an edited one can be, the least there is.</summary>
    public DateTimeOffset At => EntryTime.TryParse(Row.At, out var at) ? at : DateTimeOffset.MinValue;

    /// <summary>Reads it.</summary>
    /// <param name="row">The row.</param>
    public static ReviewEntry Of(EntryRow row)
    {
        try
        {
            return new(row, row.ReadBody() is { } body && Sound.Is(body) ? body : null);
        }
        catch (Exception e) when (e is JsonException or FormatException or NotSupportedException)
        {
            return new(row, null);
        }
    }
}
