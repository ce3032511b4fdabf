using System.Globalization;
using Stockseat.Audit.Replaying;

namespace Stockseat.Load.Figures;

/// <summary>How fast the big ledger is replayed, compared with a bare scan of the same rows with SHA-256 over each body.</summary>
internal static class ReplayFigures
{
    /// <summary>10 µs an entry on one core: reading, deciding, writing as JSON and comparing.</summary>
    private const double Least = 100_000;

    public static async Task Measure(Run run)
    {
        var of = $"ledger replay, {run.Plan.Entries} entries";
        var onOne = new List<double>();
        await VerifyFigures.AgainstScan(
            run, of, ["ledger", "replay", "--data", await run.Big()], null, (read, entries) => onOne.Add(entries / read.ProcessorTime.TotalSeconds));
        var median = onOne.Order().ElementAt(onOne.Count / 2);
        var verdict = median >= Least ? "yes" : "NO";
        run.Results.Note(string.Create(
            CultureInfo.InvariantCulture, $"Replayed: {median:F0} entries in a second of processor time (goal {Least:F0}: {verdict})."));
    }
}
