using Stockseat.Ledger.Store;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>An entry as the service sent it.</summary>
internal static class EntryReading
{
    public static EntryRow Of(Entry e) =>
        new(e.Serial, e.At, e.Kind, Text(e.Fixture), e.Revision == 0 ? null : e.Revision, Text(e.Client), Text(e.Tag), e.Body, e.Hash.ToByteArray());

    private static string? Text(string text) => text.Length == 0 ? null : text;
}
