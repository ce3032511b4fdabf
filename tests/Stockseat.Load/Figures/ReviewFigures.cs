using System.Diagnostics;
using System.Globalization;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Reading;

namespace Stockseat.Load.Figures;

/// <summary>
/// How long a review of the usual minutes takes somewhere in the big ledger, compared with reading the same number of rows there by their serials. Both run
/// in this program, so this is an ordinary build's figure.
/// </summary>
internal static class ReviewFigures
{
    private const double MostMs = 50;

    /// <summary>Places in the ledger that a round looks at.</summary>
    private const int Places = 20;

    public static async Task Measure(Run run)
    {
        var big = await run.Big();
        var (last, spent, reviews) = (default(Review), TimeSpan.Zero, 0);
        var figure = run.Results.Add(
            $"review of 12 minutes of {run.Plan.Entries} entries", "median of the places", "ms",
            "the same rows read by their serials", Goal.Within(MostMs, "ms"));
        await run.Interleave(
            () => Task.Run(() => Each(run, serial =>
            {
                var processor = Environment.CpuUsage.TotalTime;
                last = LedgerReview.Of(big, new() { Serial = serial }, verify: null, Display.Plain, run.Token);
                (spent, reviews) = (spent + Environment.CpuUsage.TotalTime - processor, reviews + 1);
            })),
            () => Task.Run(() => Each(run, serial =>
            {
                using var reader = LedgerReader.Open(big);
                var after = Math.Max(0, serial - (last!.Entries.Count * 5 / 6));
                _ = reader.Piece(after, after + last.Entries.Count, last.Entries.Count, null);
            })),
            figure.Add);
        run.Results.Note(string.Create(CultureInfo.InvariantCulture, $"""
            Reviewed: {Places} places of {run.Plan.Entries} entries a round, the last one with {last!.Entries.Count} entries and {last.Findings.Count} findings.
            Processor time of one review: {spent.TotalMilliseconds / reviews:F1} ms.
            """));
    }

    private static double Each(Run run, Action<long> look)
    {
        var spent = new List<double>();
        for (var i = 1; i <= Places; i++)
        {
            var begun = Stopwatch.GetTimestamp();
            look(run.Plan.Entries * i / (Places + 1));
            spent.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }

        return spent.Order().ElementAt(Places / 2);
    }
}
