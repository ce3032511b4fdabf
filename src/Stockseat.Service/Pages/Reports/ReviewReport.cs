using Stockseat.Ledger.Reviewing;

namespace Stockseat.Service.Pages.Reports;

public static class ReviewReport
{
    public static string Page(Review review, TimeZoneInfo zone, DateTimeOffset printed) => $"TEMPORARY {review.At} {zone} {printed}";
}
