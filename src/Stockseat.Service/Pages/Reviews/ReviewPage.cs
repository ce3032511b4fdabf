using Microsoft.AspNetCore.Http;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Pages.Entries;
using Stockseat.Sheets.Numbers;
using Stockseat.Sheets.Reports;

namespace Stockseat.Service.Pages.Reviews;

/// <summary>The minutes around an instant or an entry, /review, and their report to print, /review/report.</summary>
internal sealed class ReviewPage(PageLedger ledger, Display display, TimeProvider time, PlantForwarding? plant = null) : IPage
{
    /// <summary>How many entries the page shows; the report shows all.</summary>
    private const int Most = 200;

    private const string ReportName = "report";

    public string Name => "review";

    public string Menu => "Review";

    public async Task<PageReply> Get(PageRequest request)
    {
        if (request.Path is not ([] or [ReportName]))
        {
            return PageReply.NoPage;
        }

        if (PageLedger.Denied(request.Client) is { } denied)
        {
            return denied;
        }

        var form = ReviewForm.Read(request.Query, display.Zone);
        return form.Question is { } question
            ? await ledger.Check(
                request, (folder, token) =>
                    LedgerReview.Of(folder, question, verify: null, display, token, plant?.Fault), review => Show(request, form, review))
            : Show(request, form, null, form.Faults.Count > 0 ? StatusCodes.Status400BadRequest : StatusCodes.Status200OK);
    }

    private PageReply Show(PageRequest request, ReviewForm form, Review? review)
    {
        if (review is null)
        {
            return PageReply.Problem(
                StatusCodes.Status404NotFound, "There is no such entry",
                $"Entry {PrintedNumbers.Whole(form.Question!.Serial ?? 0)} is not in the ledger; choose another one, or an instant.");
        }

        if (request.Path is [ReportName])
        {
            return PageReply.Whole(ReviewReport.Page(review, display, time.GetUtcNow(), style: $"/{PageFiles.Name}/{PageFiles.ReportStyle(display.Paper)}"));
        }

        var near = Nearest(review);
        return Show(request, form, new ShownReview(
            review, display.Times.Second(review.At), [.. near.Select(e => EntryLine.Of(e.Row, display))], review.LeftOut + review.Entries.Count - near.Count));
    }

    /// <summary>The entries of which as many are before the instant as after it, as far as there are so many.</summary>
    private static List<ReviewEntry> Nearest(Review review)
    {
        var before = review.Entries.Count(e => !review.IsAfter(e));
        var after = Math.Min(review.Entries.Count - before, Math.Max(Most / 2, Most - before));
        return [.. review.Entries.Skip(Math.Max(0, before - (Most - after))).Take(Most)];
    }

    private PageReply Show(PageRequest request, ReviewForm form, ShownReview? shown, int status = StatusCodes.Status200OK) =>
        PageReply.Show(ReviewSlice.Create(new(request.Frame("Review"), form, display.Times.Name, shown)), status);
}
