using System.Diagnostics;
using System.Globalization;
using Stockseat.Audit.Replaying;

namespace Stockseat.Load.Figures;

/// <summary>Answers decided again a second, on one core, against a bare scan of the same rows with SHA-256 over each body.</summary>
internal static class ReplayFigures
{
    /// <summary>10 µs an answer: what is read, decided, written as JSON and compared.</summary>
    private const double Least = 100_000;

    public static async Task Measure(Run run, string big)
    {
        var last = default(ReplayResult);
        var figure = run.Results.Add("ledger replay, one core", "1/s", "scan of the rows and SHA-256, one core", Goal.From(Least, "1/s"));
        var (spent, entries) = (TimeSpan.Zero, 0L);
        await run.Interleave(
            figure,
            () => Task.Run(() =>
            {
                var (begun, processor) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
                var found = last = LedgerReplay.Run(big, new() { Ranges = 1 }, run.Token);
                (spent, entries) = (spent + Environment.CpuUsage.TotalTime - processor, entries + found.Last - found.First + 1);
                return found.Agrees ? found.Answers / Stopwatch.GetElapsedTime(begun).TotalSeconds : throw new InvalidOperationException($"the big ledger does not come out the same: {found.Differences.FirstOrDefault()} {found.Unreadable}");
            }),
            () => Task.Run(() =>
            {
                var begun = Stopwatch.GetTimestamp();
                return VerifyFigures.ScanRange(big, 0, run.Plan.Entries) / Stopwatch.GetElapsedTime(begun).TotalSeconds;
            }));
        run.Results.Note(string.Create(
            CultureInfo.InvariantCulture,
            $"Replayed: {last!.Answers} answers, {last.Refusals} refusals, {last.Others} others, {last.Same} of them to the same bytes; {1e6 * spent.TotalSeconds / entries:F1} us of processor time an entry; resident after it: {Environment.WorkingSet / 1e6:F0} MB."));
    }
}
