using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Clients;
using Stockseat.Service.Configuration;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

internal sealed class LedgerGrpc(Settings settings, ClientTable clients) : LedgerService.LedgerServiceBase
{
    private const int UsualPage = 100;
    private const int LargestPage = 1000;

    public override Task<ListEntriesResponse> ListEntries(ListEntriesRequest request, ServerCallContext context)
    {
        clients.With(context, Roles.Review, "reading the ledger");
        var size = request.PageSize switch
        {
            0 => UsualPage,
            > 0 and <= LargestPage => request.PageSize,
            _ => throw Calls.Malformed($"page_size is {request.PageSize}; 1 to {LargestPage}, or 0 for {UsualPage}, was expected"),
        };
        var after = request.After;
        if (request.PageToken.Length > 0 && !long.TryParse(request.PageToken, NumberStyles.None, CultureInfo.InvariantCulture, out after))
        {
            throw Calls.Malformed("page_token is not one that this service gave");
        }

        var filter = new EntryFilter(NullIfEmpty(request.Fixture), NullIfEmpty(request.Kind), NullIfEmpty(request.Client), NullIfEmpty(request.Tag));
        using var connection = LedgerFile.OpenReader(settings.Data);
        var response = new ListEntriesResponse();
        if (after < 0)
        {
            response.Entries.AddRange(LedgerQueries.Before(connection, long.MaxValue, (int)-Math.Max(after, -LargestPage), filter).Select(Of));
            return Task.FromResult(response);
        }

        var rows = LedgerQueries.After(connection, after, size + 1, filter);
        response.Entries.AddRange(rows.Take(size).Select(Of));
        response.NextPageToken = rows.Count > size ? rows[size - 1].Serial.ToString(CultureInfo.InvariantCulture) : "";
        return Task.FromResult(response);
    }

    public override async Task<VerifyResponse> Verify(VerifyRequest request, ServerCallContext context)
    {
        clients.With(context, Roles.Review, "checking the ledger");
        var v = await Task.Run(
            () =>
            {
                using var connection = LedgerFile.OpenReader(settings.Data);
                return LedgerVerifier.Verify(connection, context.CancellationToken);
            },
            context.CancellationToken);
        var response = new VerifyResponse
        {
            Whole = v.Whole,
            Entries = v.Entries,
            Ledger = v.Ledger ?? "",
            HeadSerial = v.HeadSerial,
            HeadHash = v.HeadHash,
            Unreadable = v.Unreadable ?? "",
        };
        response.Faults.AddRange(v.Faults.Select(f => new Fault { Serial = f.Serial, Kind = f.Kind, Text = f.Text }));
        response.Findings.AddRange(v.Findings);
        return response;
    }

    private static string? NullIfEmpty(string text) => text.Length == 0 ? null : text;

    private static Entry Of(EntryRow row) => new()
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
}
