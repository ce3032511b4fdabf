using System.Globalization;
using System.Runtime.CompilerServices;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>
/// The entries of a range in short pieces, from a folder or from a service, up to the entry that was the last one at the beginning: only one piece is in
/// memory, and no long read keeps the service from copying its write-ahead log into the database.
/// </summary>
internal static class EntrySource
{
    /// <summary>How many entries one read fetches.</summary>
    public const int Piece = 1000;

    /// <summary>From the ledger's folder.</summary>
    public static IEnumerable<EntryRow> Of(LedgerReader reader, EntryRange range)
    {
        var last = Math.Min(range.Until ?? long.MaxValue, reader.Last);
        for (var after = range.After; after < last;)
        {
            var piece = reader.Piece(after, last, Piece, range.Filter);
            foreach (var row in piece.Rows)
            {
                yield return row;
            }

            after = piece.End;
        }
    }

    /// <summary>From the running service, one page per call.</summary>
    public static async IAsyncEnumerable<EntryRow> Of(ServiceClient client, EntryRange range, [EnumeratorCancellation] CancellationToken token = default)
    {
        var newest = (await client.Call(t => client.Ledger.ListEntriesAsync(new() { After = -1 }, cancellationToken: t))).Entries;
        var last = newest.Count == 0 ? 0 : newest[^1].Serial;
        if (range.After >= last)
        {
            yield break;
        }

        var request = Request(range, last);
        do
        {
            token.ThrowIfCancellationRequested();
            var page = await client.Call(t => client.Ledger.ListEntriesAsync(request, cancellationToken: t));
            foreach (var entry in page.Entries)
            {
                yield return EntryReading.Of(entry);
            }

            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
    }

    private static ListEntriesRequest Request(EntryRange range, long last)
    {
        var f = range.Filter;
        return new()
        {
            PageSize = Piece,
            After = range.After,
            Until = Math.Min(range.Until ?? last, last),
            Fixture = f.Fixture ?? "",
            Kind = f.Kind ?? "",
            Client = f.Client ?? "",
            Tag = f.Tag ?? "",
            Cell = f.Cell ?? "",
            Lot = f.Lot ?? "",
            From = f.From is { } from ? EntryTime.Text(from) : "",
            To = f.To is { } to ? EntryTime.Text(to) : "",
        };
    }
}
