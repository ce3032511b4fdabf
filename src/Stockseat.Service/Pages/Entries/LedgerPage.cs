using Microsoft.AspNetCore.Http;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;

namespace Stockseat.Service.Pages.Entries;

/// <summary>The entries of the ledger, the newest first: /ledger, with filters in its query.</summary>
internal sealed class LedgerPage(PageLedger ledger, Display display) : IPage
{
    /// <summary>How many entries a page shows.</summary>
    public const int Size = 200;

    public string Name => "ledger";

    public string Menu => "Ledger";

    public async Task<PageReply> Get(PageRequest request)
    {
        if (request.Path.Count > 0)
        {
            return PageReply.NoPage;
        }

        if (PageLedger.Denied(request.Client) is { } denied)
        {
            return denied;
        }

        var question = LedgerQuestion.Read(request.Query, display.Zone);
        return question.Faults.Count > 0
            ? Show(request, question, 0, new([], 1), StatusCodes.Status400BadRequest)
            : await ledger.Page(
                request, reader => (reader.Last, Piece: reader.PieceBelow(question.Below, Size, question.Filter)),
                read => Show(request, question, read.Last, read.Piece, StatusCodes.Status200OK));
    }

    private PageReply Show(PageRequest request, LedgerQuestion question, long last, EntryPiece piece, int status)
    {
        var entries = piece.Rows.Select(r => EntryLine.Of(r, display)).ToList();
        var older = piece.End > 1 ? question.Older(piece.End) : null;
        return PageReply.Show(
            LedgerSlice.Create(new(request.Frame("Ledger"), question, display.Times.Name, last, entries, piece.End, older)), status);
    }
}
