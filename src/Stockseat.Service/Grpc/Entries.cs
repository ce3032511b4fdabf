using Google.Protobuf;
using Stockseat.Ledger.Queries;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>Entries as messages.</summary>
internal static class Entries
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

    /// <summary>Which entries are wanted; empty: all.</summary>
    public static EntryFilter Filter(string fixture, string kind, string client, string tag) =>
        new(NullIfEmpty(fixture), NullIfEmpty(kind), NullIfEmpty(client), NullIfEmpty(tag));

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;
}
