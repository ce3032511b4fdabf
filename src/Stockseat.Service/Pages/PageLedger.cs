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
    public async Task<PageReply> Page<T>(PageRequest request, Func<LedgerReader, T> read, Func<T, PageReply> show) =>
        Show(await Try(request, () => heavy.Page(request.Client, request.Gone, () => Read(read))), show);

    /// <summary>Reads much of the ledger, or says why that can't be done now.</summary>
    public Task<(T? Made, PageReply? Trouble)> Much<T>(PageRequest request, Func<LedgerReader, T> read) =>
        Try(request, () => heavy.Check(request.Client, request.Gone, _ => Read(read)));

    /// <summary>Reviews or replays, and shows what comes of it.</summary>
    /// <param name="request">The request.</param>
    /// <param name="make">Makes it from the ledger's folder; it has to end soon when its token ends.</param>
    /// <param name="show">Shows it.</param>
    public async Task<PageReply> Check<T>(PageRequest request, Func<string, CancellationToken, T> make, Func<T, PageReply> show) =>
        Show(await Try(request, () => heavy.Check(request.Client, request.Gone, token => make(ledger.Data, token))), show);

    private static PageReply Show<T>((T? Made, PageReply? Trouble) tried, Func<T, PageReply> show) => tried.Trouble ?? show(tried.Made!);

    private T Read<T>(Func<LedgerReader, T> read)
    {
        using var reader = LedgerReader.Open(ledger.Data);
        return read(reader);
    }

    private async Task<(T? Made, PageReply? Trouble)> Try<T>(PageRequest request, Func<Task<(T? Made, Refusal? Refusal)>> work)
    {
        try
        {
            var (made, refusal) = await work();
            return (made, refusal is null ? null : PageReply.Refused(refusal, "This can't be shown now"));
        }
        catch (Exception e) when (e is IOException or SqliteException or InvalidDataException or JsonException)
        {
            Log.LedgerNotRead(logger, e, request.Whole);
            return (default, PageReply.Problem(
                StatusCodes.Status503ServiceUnavailable, "The ledger can't be read now",
                $"{e.Message.TrimEnd('.')}. Try again; if it stays so, run stockseat ledger verify on the service's machine."));
        }
    }
}
