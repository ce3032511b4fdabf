using System.Collections.Concurrent;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Ledgers;

namespace Stockseat.Service.Pages;

/// <summary>Single entries that clients caused, by their serials. An entry never changes, so those that were read are kept, up to a number.</summary>
public sealed class EntryLook(LedgerSettings ledger)
{
    private const int MostKept = 200;

    private readonly ConcurrentDictionary<long, EntryBody> _kept = new();

    /// <summary>An entry; null when there is none, when no client caused it, when it can't be read now, or when this version does not know its kind.</summary>
    public EntryBody? Find(long serial)
    {
        if (serial <= 0)
        {
            return null;
        }

        if (_kept.TryGetValue(serial, out var kept))
        {
            return kept;
        }

        if (Read(serial) is not { } read)
        {
            return null;
        }

        if (_kept.Count >= MostKept)
        {
            _kept.Clear();
        }

        return _kept[serial] = read;
    }

    /// <summary>The first entry of a form, by its id; null when it was not sent, or when that can't be read now.</summary>
    /// <param name="client">The client that was shown the form.</param>
    /// <param name="request">Its id.</param>
    public EntryBody? OfRequest(string client, string request) =>
        Read(reader => reader.SerialOf(client, request)) is { } serial && Find(serial) is { } body && (body.Client, body.Request) == (client, request)
            ? body : null;

    /// <summary>The service's own entries are left out: they may be large.</summary>
    private EntryBody? Read(long serial) => Read(reader => reader.Find(serial) is { Client: not null } row ? row.TryReadBody() : null);

    private T? Read<T>(Func<LedgerReader, T?> read)
    {
        try
        {
            using var reader = LedgerReader.Open(ledger.Data);
            return read(reader);
        }
        catch (Exception e) when (e is IOException or SqliteException or InvalidDataException or NotSupportedException)
        {
            return default; // The page says all the rest.
        }
    }
}
