using System.Globalization;
using Grpc.Core;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Ledgers;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

internal sealed class LedgerGrpc(
    LedgerSettings ledger, IAnswerer answerer, LedgerWatch watch, HeavyCalls heavy, LedgerWriter writer, Display display,
    PlantForwarding? plant = null) : LedgerService.LedgerServiceBase
{
    public override Task<ListEntriesResponse> ListEntries(ListEntriesRequest request, ServerCallContext context)
    {
        var client = context.With(Roles.Review, "reading the ledger");
        var size = Paging.Size(request.PageSize);
        var after = Paging.Start(request.PageToken, request.After);
        var filter = EntryMessages.Filter(request);
        if (request.Until < 0)
        {
            throw Calls.Malformed($"until is {request.Until.ToString(CultureInfo.InvariantCulture)}; a serial, or 0 for the last one, was expected");
        }

        if (after < -Paging.Largest)
        {
            throw Calls.Malformed($"after is {after.ToString(CultureInfo.InvariantCulture)}; 0 or a serial, or -1 to -{Paging.Largest} for that many of "
                + $"the newest, was expected");
        }

        return heavy.Page(client, context, () => Page(after, request.Until, size, filter));
    }

    public override Task<GetEntryResponse> GetEntry(GetEntryRequest request, ServerCallContext context)
    {
        context.With(Roles.Review, "reading the ledger");
        using var reader = LedgerReader.Open(ledger.Data);
        return reader.Find(request.Serial) is { } row
            ? Task.FromResult(new GetEntryResponse { Entry = EntryMessages.Of(row) })
            : throw ReplayMessages.Unknown(request.Serial, reader);
    }

    public override async Task<NoteResponse> Note(NoteRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request: request.RequestId);
        DateTimeOffset at = default;
        if (request.Instant.Length > 0 && InstantText.Read(request.Instant, zone: null, out at) is { } fault)
        {
            throw Calls.Malformed($"instant '{Refusal.Shown(request.Instant)}' {fault}");
        }

        var ask = new NoteAsk(caller, request.Fixture.Length == 0 ? "" : Calls.Fixture(request.Fixture))
        {
            By = Calls.Said("by", request.By, "the name of who notes it was expected,"),
            Text = Calls.Said("text", request.Text, "the words of the note were expected,"),
            Entry = request.Entry == 0 ? null : request.Entry,
            Instant = request.Instant.Length > 0 ? at : null,
        };
        return new() { Serial = (await answerer.Ask(client.Permit(ask))).Entry<NoteBody>().Serial };
    }

    public override async Task Watch(WatchRequest request, IServerStreamWriter<WatchResponse> responseStream, ServerCallContext context)
    {
        var client = context.With(Roles.Review, "watching the ledger");
        if (request is { HasAfter: true, After: < 0 })
        {
            throw Calls.Malformed($"after is {request.After.ToString(CultureInfo.InvariantCulture)}; 0 or a serial, or none for entries from now "
                + $"on, was expected");
        }

        var filter = EntryMessages.Filter(request.Fixture, request.Kind, request.Client, request.Tag);
        await watch.Run(request.HasAfter ? request.After : null, filter, responseStream, client, context);
    }

    public override async Task<AnchorResponse> Anchor(AnchorRequest request, ServerCallContext context)
    {
        context.With(Roles.Review, "anchoring the ledger");
        var isSealed = writer.Seals.Key is not null;
        if (isSealed && (await writer.Seal()).Refusal is { } refusal)
        {
            throw refusal.ToRpc();
        }

        using var connection = LedgerFile.OpenReader(ledger.Data);
        var anchor = (isSealed ? Anchors.Newest(connection) : null) ?? Anchors.Head(connection)
            ?? throw Refusal.Of(Reason.InternalFailure, "the ledger's first entry has no id; run stockseat ledger verify").ToRpc();
        return new()
        {
            Ledger = anchor.Ledger,
            Serial = anchor.Serial,
            Hash = anchor.Hash,
            At = anchor.At,
            Key = anchor.Key ?? "",
            Signature = anchor.Signature ?? "",
        };
    }

    public override async Task<RollResponse> Roll(RollRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request: request.RequestId);
        var ask = new RollAsk(caller) { By = Calls.Said("by", request.By), Why = Calls.Said("why", request.Why), Next = Guid.NewGuid().ToString() };
        var body = (await answerer.Ask(client.Permit(ask))).Entry<RolledOverBody>();
        return new() { Serial = body.Serial, Next = body.Next };
    }

    public override async Task<VerifyResponse> Verify(VerifyRequest request, ServerCallContext context)
    {
        var client = context.With(Roles.Review, "checking the ledger");
        var options = VerifyMessages.Options(request);
        return VerifyMessages.Response(await heavy.Check(client, context, token => LedgerVerifier.Verify(ledger.Data, options, token)));
    }

    public override async Task<ReplayResponse> Replay(ReplayRequest request, ServerCallContext context)
    {
        var client = context.With(Roles.Review, "replaying the ledger");
        return await heavy.Check(client, context, token => ReplayMessages.Run(request, ledger.Data, display.Length, token));
    }

    public override async Task<ReviewResponse> Review(ReviewRequest request, ServerCallContext context)
    {
        var client = context.With(Roles.Review, "reviewing the ledger");
        return await heavy.Check(client, context, token => ReviewMessages.Run(request, ledger.Data, display, plant?.Fault, token));
    }

    private ListEntriesResponse Page(long after, long until, int size, EntryFilter filter)
    {
        using var reader = LedgerReader.Open(ledger.Data);
        var response = new ListEntriesResponse();
        if (after < 0)
        {
            response.Entries.AddRange(reader.Newest((int)-after, filter).Select(EntryMessages.Of));
            return response;
        }

        var last = until == 0 ? reader.Last : Math.Min(until, reader.Last);
        var piece = reader.Piece(after, last, size, filter);
        response.Entries.AddRange(piece.Rows.Select(EntryMessages.Of));
        response.NextPageToken = piece.End < last ? Paging.Token(piece.End) : "";
        return response;
    }
}
