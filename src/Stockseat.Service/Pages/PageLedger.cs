using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Clients;
using Stockseat.Service.Ledgers;

namespace Stockseat.Service.Pages;

/// <summary>Reads the ledger for pages, in its turn and within the limits of each client.</summary>
internal sealed class PageLedger(LedgerSettings ledger, HeavyWork heavy, ILogger<PageLedger> logger)
{
    /// <summary>Why a client may not read the ledger; null when it may.</summary>
    public static PageReply? Denied(Client client) => client.Lacks(Roles.Review, "reading the ledger") is { } lacking ? PageReply.Refused(lacking) : null;

    /// <summary>Reads a bounded piece of the ledger, and shows what comes of it.</summary>
    public Task<PageReply> Page<T>(PageRequest request, Func<LedgerReader, T> read, Func<T, PageReply> show) => Show(request, show, () => heavy.Page(
        request.Client, request.Gone, () =>
        {
            using var reader = LedgerReader.Open(ledger.Data);
            return read(reader);
        }));

    /// <summary>Reviews or replays, and shows what comes of it.</summary>
    /// <param name="request">The request.</param>
    /// <param name="make">Makes it from the ledger's folder; it has to end soon when its token ends.</param>
    /// <param name="show">Shows it.</param>
    public Task<PageReply> Check<T>(PageRequest request, Func<string, CancellationToken, T> make, Func<T, PageReply> show) =>
        Show(request, show, () => heavy.Check(request.Client, request.Gone, token => make(ledger.Data, token)));

    private async Task<PageReply> Show<T>(PageRequest request, Func<T, PageReply> show, Func<Task<(T? Made, Refusal? Refusal)>> work)
    {
        try
        {
            var (made, refusal) = await work();
            return refusal is null ? show(made!) : PageReply.Refused(refusal, "This can't be shown now");
        }
        catch (Exception e) when (e is IOException or SqliteException or InvalidDataException or JsonException)
        {
            Log.LedgerNotRead(logger, e, request.Whole);
            return PageReply.Problem(
                StatusCodes.Status503ServiceUnavailable, "The ledger can't be read now",
                $"{e.Message.TrimEnd('.')}. Try again; if it stays so, run stockseat ledger verify on the service's machine.");
        }
    }
}
