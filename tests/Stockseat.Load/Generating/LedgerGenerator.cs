using System.Diagnostics;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;

namespace Stockseat.Load.Generating;

/// <summary>
/// Makes a big ledger by asking the service's own writer, with a clock of its own: every entry is decided, chained and written by the
/// code that serves, so the ledger is right if that code is.
/// </summary>
internal sealed class LedgerGenerator : IDisposable
{
    // As many entries as the service has between two snapshots. Snapshots are written between pieces, so each has its place beforehand.
    private const int Piece = 1000;

    private static readonly TimeSpan Step = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan SayEvery = TimeSpan.FromSeconds(10);

    private readonly FolderLock _lock;
    private readonly LedgerWriter _writer;
    private readonly long _entries;
    private readonly string _cell;
    private long _serial;

    private LedgerGenerator(string data, long entries, string cell)
    {
        (_entries, _cell) = (entries, cell);
        _lock = FolderLock.Take(data);
        if (File.Exists(Path.Combine(data, LedgerFile.Name)))
        {
            _lock.Dispose();
            throw new IOException($"there is a {LedgerFile.Name} in {data} already: name an empty folder");
        }

        // The last entry is in the past: a measurement from the future would not be used.
        var clock = new ShopClock(TimeProvider.System.GetUtcNow() - (entries + 1) * Step, Step);
        _writer = LedgerWriter.Open(data, clock, snapshotEvery: int.MaxValue);
    }

    /// <summary>Makes a ledger.</summary>
    /// <param name="data">The folder; without a ledger.</param>
    /// <param name="fixtures">The folder of the fixtures that are adopted first.</param>
    /// <param name="entries">How many entries the ledger gets in all.</param>
    /// <param name="say">Receives the progress, in words.</param>
    /// <param name="token">Stops it between two pieces.</param>
    /// <param name="cell">The cell that asks.</param>
    public static async Task Run(
        string data, string fixtures, long entries, Action<string> say, CancellationToken token, string cell = "demo")
    {
        var begun = Stopwatch.StartNew();
        using var generator = new LedgerGenerator(data, entries, cell);
        var revisions = await generator.Begin(fixtures);
        await generator.Work(revisions, say, token);
        await generator.End();
        say($"{entries} entries in {begun.Elapsed.TotalSeconds:F1} s, {entries / begun.Elapsed.TotalSeconds:F0} a second");
    }

    public void Dispose()
    {
        _writer.Dispose();
        _lock.Dispose();
    }

    private async Task<IReadOnlyList<Revision>> Begin(string fixtures)
    {
        var outcome = await _writer.Append(Start, [.. FixtureFolder.ReadAll(fixtures).Select(f => f.Prepare(inForce: null))]);
        _serial = Written(outcome).Serial;
        var revisions = _writer.Situation.Fixtures.Select(f => f.InForce).OfType<Revision>().ToList();
        return revisions.Count == 0 ? throw new IOException($"no fixture in {fixtures} has a valid revision")
            : _serial >= _entries ? throw new IOException($"{revisions.Count} fixtures need more than {_entries} entries")
            : revisions;
    }

    private async Task Work(IReadOnlyList<Revision> revisions, Action<string> say, CancellationToken token)
    {
        var said = Stopwatch.StartNew();
        using var asks = new Shop(revisions, () => _serial + 1, _cell).Asks().GetEnumerator();
        while (_serial < _entries - 1)
        {
            token.ThrowIfCancellationRequested();
            await Check(Queue(asks));
            _serial = _serial < _entries - 1 ? Written(await _writer.Snapshot()).Serial : _serial;
            if (said.Elapsed > SayEvery)
            {
                say($"{_serial} entries");
                said.Restart();
            }
        }
    }

    private List<Task<AppendOutcome>> Queue(IEnumerator<Ask> asks)
    {
        var piece = new List<Task<AppendOutcome>>(Piece);
        for (; piece.Count < Piece && _serial < _entries - 1; _serial++)
        {
            asks.MoveNext();
            piece.Add(ShopClock.Ask(() => _writer.Append(asks.Current)));
        }

        return piece;
    }

    private async Task Check(List<Task<AppendOutcome>> piece)
    {
        var first = _serial - piece.Count + 1;
        for (var i = 0; i < piece.Count; i++)
        {
            if (Written(await piece[i]).Serial != first + i)
            {
                throw new InvalidOperationException($"the ask for entry {first + i} became another one");
            }
        }
    }

    private async Task End()
    {
        Written(await _writer.Append(_ => [new ServiceStoppedBody()]));
        if (await _writer.Stop() is { } failure)
        {
            throw new IOException("the ledger's writer ended", failure);
        }
    }

    private static IEnumerable<EntryBody> Start(Situation situation) =>
    [
        new ServiceStartedBody { Ledger = Guid.NewGuid().ToString(), Program = "load", Host = Environment.MachineName, Process = Environment.ProcessId },
        .. Adopting.OfFolders(situation, FirstAdoption.Automatic),
    ];

    private static EntryBody Written(AppendOutcome outcome) =>
        outcome.Entry ?? throw new IOException($"the ledger can't be written: {outcome.Refusal!.Text}");
}
