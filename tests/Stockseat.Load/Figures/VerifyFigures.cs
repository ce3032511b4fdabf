using System.Globalization;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>Entries verified a second, compared with a bare scan with SHA-256 over each body; as many ranges at once as there are cores.</summary>
internal static class VerifyFigures
{
    // How much the checks of columns, indexes, JSON and order may cost.
    private const double OfScan = 0.8;

    // A round reads gigabytes, and its processor time hardly changes from round to round.
    private const int MostRounds = 3;

    public static async Task Measure(Run run)
    {
        var big = await run.Big();
        var of = $"ledger verify, {run.Plan.Entries} entries";
        var arguments = new[] { "ledger", "verify", "--data", big };
        using (FolderLock.Take(big))
        {
            // As beside a running service, where the pages are not checked: only the walk over the entries.
            await AgainstScan(run, $"{of}, the walk", arguments, OfScan, (_, _) => { });
        }

        await AgainstScan(run, $"{of}, the walk and the pages", arguments, null, (_, _) => { });
    }

    /// <summary>A command that reads the big ledger, and the bare scan, in turns.</summary>
    /// <param name="run">The run.</param>
    /// <param name="of">What is measured.</param>
    /// <param name="arguments">The command.</param>
    /// <param name="share">The smallest permitted share of the scan's entries a second; null when there is no goal.</param>
    /// <param name="also">Receives each command that ran, and the entries.</param>
    public static async Task AgainstScan(Run run, string of, string[] arguments, double? share, Action<Command, long> also)
    {
        const string against = "bare scan with SHA-256";
        var big = await run.Big();
        var cores = Environment.ProcessorCount.ToString(CultureInfo.InvariantCulture);
        var processor = run.Results.Add(of, "processor time an entry", "µs", against, share is null ? Goal.None : Goal.AtMost(1 / share.Value));
        var rate = run.Results.Add(of, "entries a second", "1/s", against, share is null ? Goal.None : Goal.AtLeast(share.Value));
        var most = run.Results.Add(of, "most memory resident", "MB", against);
        await Scan(); // so that the file is in the system's cache
        for (var i = 0; i < Math.Min(run.Plan.Rounds, MostRounds); i++)
        {
            var read = await Command.Run(run.Plan.Service, arguments, run.Token);
            var scan = await Scan();
            var entries = long.Parse(scan.Output, CultureInfo.InvariantCulture);
            processor.Add(read.ProcessorTime.TotalMicroseconds / entries, scan.ProcessorTime.TotalMicroseconds / entries);
            rate.Add(entries / read.Took.TotalSeconds, entries / scan.Took.TotalSeconds);
            most.Add(read.MostMegabytes, scan.MostMegabytes);
            also(read, entries);
        }

        Task<Command> Scan() => Command.Run(run.Plan.Baseline, ["scan", big, cores], run.Token);
    }
}
