using System.Reflection;
using System.Runtime.ExceptionServices;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Explaining;
using Stockseat.Ledger.Store;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Replaying;

/// <summary>Computes entries again from their recorded inputs, with the code that serves, and compares the results with what is recorded.</summary>
public static class LedgerReplay
{
    /// <summary>How many differences are listed.</summary>
    public const int MostDifferences = 1000;

    /// <summary>How much a number in an entry by another version of the program may differ: relative, or in metres.</summary>
    public const double Tolerance = 1e-12;

    /// <summary>The version of this program, as recorded when the service starts.</summary>
    public static string Program { get; } =
        typeof(LedgerReplay).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";

    /// <summary>Replays the ledger in a folder, running or stopped, and those before it that were closed and are still there.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="options">Which entries, and how they are read.</param>
    /// <param name="token">Stops it soon.</param>
    /// <exception cref="FileNotFoundException">There is no ledger in the folder.</exception>
    public static ReplayResult Run(string folder, ReplayOptions options, CancellationToken token)
    {
        var ledgers = ReplayedLedger.All(folder);
        var stretches = ReplayStretch.Cut(ledgers, options);
        if (stretches.Count == 0 && ledgers.Count > 0)
        {
            return new StretchResult
            {
                Unreadable = $"there is no entry {options.From}{(options.Until is { } until ? $" to {until}" : " or later")}; this ledger has entries "
                    + $"{ledgers[0].First} to "
                    + $"{ledgers[^1].Last}",
            }.ToResult();
        }

        var results = new StretchResult?[stretches.Count];
        var revisions = new AdoptedRevisions();
        var progress = new Telling(options.Progress, stretches.Where(s => s.Ledger.Fault is null).Sum(s => s.To - s.From + 1));
        var (next, last) = (-1, stretches.Count - 1);
        void Range()
        {
            using var walk = new StretchWalk(folder, ledgers, revisions, options.Piece, progress.Tell, token);
            for (var i = Interlocked.Increment(ref next); i <= Volatile.Read(ref last); i = Interlocked.Increment(ref next))
            {
                token.ThrowIfCancellationRequested();
                results[i] = walk.Run(stretches[i]);
                if (results[i]!.Unreadable is not null)
                {
                    Lower(ref last, i); // What comes after it depends on it.
                }
            }
        }

        Together(Range, options.Ranges);
        var all = new StretchResult();
        foreach (var result in results.TakeWhile(_ => all.Unreadable is null).OfType<StretchResult>())
        {
            all.Add(result.ToResult());
        }

        return all.ToResult();
    }

    /// <summary>Replays one entry, with every intermediate value.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="serial">The entry.</param>
    /// <returns>What came out, and the working; null when there is no such entry.</returns>
    /// <exception cref="FileNotFoundException">There is no ledger in the folder.</exception>
    /// <param name="unit">The unit of the lengths that the words contain; null: millimetres.</param>
    public static (ReplayResult Result, Working Working)? One(string folder, long serial, LengthUnit? unit = null)
    {
        var ledgers = ReplayedLedger.All(folder);
        var ledger = ledgers.LastOrDefault(l => l.First <= serial && serial <= l.Last);
        if (ledger is null or { Fault: not null })
        {
            return ledger is null ? null : (new StretchResult { Unreadable = ledger.Fault }.ToResult(), new(serial, []));
        }

        var revisions = new AdoptedRevisions();
        using var connection = ledger.Open(folder);
        if (LedgerQueries.Find(connection, serial) is not { } row)
        {
            return null;
        }

        var result = new StretchResult() { First = serial, Last = serial };
        using var answers = new RecordedAnswers(folder, ledgers);
        using var replay = new EntryReplay(answers, revisions, result);
        using var walk = new StretchWalk(folder, ledgers, revisions, 1, _ => { }, CancellationToken.None);
        result.Unreadable = walk.Place(replay, connection, ledger, serial);
        var before = replay.Situation;
        result.Unreadable ??= replay.Next(serial, row.Kind, Encoding.UTF8.GetBytes(row.Body));
        var body = result.Unreadable is null ? Read(row, result) : null;
        if (body is null)
        {
            return (result.ToResult(), new(serial, []));
        }

        var (then, measurement) = (SituationThen.Of(body, before, out _), Measurement(body, connection, answers));
        return (result.ToResult(), Working.Of(body, then, measurement, Confirmed(body, answers), unit));
    }

    private static AnswerBody? Confirmed(EntryBody body, RecordedAnswers answers) =>
        ((body as ConfirmationBody)?.Confirms ?? (body as RefusalBody)?.Confirms) is { } serial
            && serial < body.Serial ? Read(answers, serial) as AnswerBody : null;

    private static MeasurementBody? Measurement(EntryBody body, SqliteConnection connection, RecordedAnswers answers)
    {
        var serial = (body as AnswerBody)?.Measurement ?? (body as RefusalBody)?.Measurement;
        return serial is null ? null
            : (Read(answers, serial.Value)
                ?? (LedgerQueries.First(connection)?.ReadBody() as RolledOverBody)?.ReadCarried().FirstOrDefault(c => c.Serial == serial)) as MeasurementBody;
    }

    /// <summary>The body of the entry itself; null when it can't be read, which the result says.</summary>
    private static EntryBody? Read(EntryRow row, StretchResult result)
    {
        try
        {
            return row.ReadBody();
        }
        catch (JsonException e)
        {
            result.Unreadable = $"entry {row.Serial} has a body that can't be read: {e.Message}";
            return null;
        }
    }

    /// <summary>An entry that a working shows; null also when its body can't be read.</summary>
    private static EntryBody? Read(RecordedAnswers answers, long serial)
    {
        try
        {
            return answers.Row(serial, out _)?.ReadBody();
        }
        catch (Exception e) when (EntryReplay.IsOfTheBody(e))
        {
            return null;
        }
    }

    private static void Lower(ref int last, int to)
    {
        for (var was = Volatile.Read(ref last); to < was; was = Volatile.Read(ref last))
        {
            Interlocked.CompareExchange(ref last, to, was);
        }
    }

    private static void Together(Action range, int ranges)
    {
        try
        {
            Parallel.For(0, ranges, new ParallelOptions { MaxDegreeOfParallelism = ranges }, _ => range());
        }
        catch (AggregateException e)
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }

    /// <summary>Adds up the progress of all.</summary>
    private sealed class Telling(Action<long, long>? progress, long all)
    {
        private readonly Lock _lock = new();
        private long _done;

        public void Tell(long more)
        {
            lock (_lock)
            {
                progress?.Invoke(_done += more, all);
            }
        }
    }
}
