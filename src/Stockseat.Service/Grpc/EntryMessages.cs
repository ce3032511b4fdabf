using Google.Protobuf;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>Entries as messages.</summary>
internal static class EntryMessages
{
    public static Entry Of(EntryRow row) => new()
    {
        Serial = row.Serial,
        At = row.At,
        Kind = row.Kind,
        Fixture = row.Fixture ?? "",
        Revision = row.Revision ?? 0,
        Client = row.Client ?? "",
        Tag = row.Tag ?? "",
        Body = row.Body,
        Hash = ByteString.CopyFrom(row.Hash),
    };

    /// <summary>A hold that is in effect.</summary>
    public static Hold Of(StandingHold hold) => new() { By = hold.By, Why = hold.Why, Serial = hold.Serial, At = EntryTime.Text(hold.At) };

    /// <summary>Which entries are wanted; empty: all.</summary>
    public static EntryFilter Filter(string fixture, string kind, string client, string tag) =>
        new(NullIfEmpty(fixture), NullIfEmpty(kind), NullIfEmpty(client), NullIfEmpty(tag));

    /// <summary>Which entries a listing wants.</summary>
    public static EntryFilter Filter(ListEntriesRequest r) => Filter(r.Fixture, r.Kind, r.Client, r.Tag) with
    {
        Cell = NullIfEmpty(r.Cell),
        Lot = NullIfEmpty(r.Lot),
        From = Instant("from", r.From),
        To = Instant("to", r.To),
    };

    private static DateTimeOffset? Instant(string name, string text) =>
        text.Length == 0 ? null
        : InstantText.Read(text, zone: null, out var at) is { } fault ? throw Calls.Malformed($"{name} is '{Refusal.Shown(text)}', which {fault}") : at;

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
