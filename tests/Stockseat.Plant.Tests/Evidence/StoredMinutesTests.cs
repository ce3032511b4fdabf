using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Evidence;
using Stockseat.Plant.Heads;
using Stockseat.Plant.Tests.Support;
using Local = Stockseat.Ledger.Tests.Support.Ledger;
using Running = Stockseat.Plant.Tests.Support.Forwarding;

namespace Stockseat.Plant.Tests.Evidence;

/// <summary>A review from some rows of the store is the review from the whole ledger.</summary>
public sealed class StoredMinutesTests(Server server) : IDisposable
{
    private static readonly TimeSpan Before = TimeSpan.FromSeconds(40);
    private static readonly TimeSpan After = TimeSpan.FromSeconds(10);
    private static readonly JsonSerializerOptions AsText = new() { ReferenceHandler = ReferenceHandler.IgnoreCycles };

    private readonly SteppedTime _time = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-minutes-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Reviews_of_any_minutes_are_those_of_the_whole_ledger_and_read_a_part_of_it()
    {
        var database = await server.Prepared();
        using var ledger = await new Local(_time) { Id = Guid.NewGuid().ToString(), SnapshotEvery = 100 }.Begin();
        for (var part = 0; part < 4; part++)
        {
            await Work(ledger, 100);
            await ledger.Again();
        }

        await Send(ledger, database);
        var rows = ledger.Rows();
        var (random, fewer) = (new Random(1), 0);
        for (var i = 0; i < 25; i++)
        {
            var row = rows[random.Next(60, rows.Count)];
            var question = new ReviewQuestion { Before = Before, After = After, Fixture = i % 3 == 1 ? "bed" : null, Cell = i % 3 == 2 ? "demo" : null };
            question = i % 2 == 0 ? question with { Serial = row.Serial } : question with { At = new ReviewEntry(row, null).At };

            var copied = await Same(ledger, database, question);

            fewer += copied is { } count && count < rows.Count / 2 ? 1 : 0;
        }

        Assert.InRange(fewer, 15, 25); // A cell's fixtures are looked for in the last 5000 entries, which are all here.
    }

    [Fact]
    public async Task Minutes_in_a_closed_ledger_and_in_the_one_after_it_give_the_same_too()
    {
        var database = await server.Prepared();
        using var ledger = await new Local(_time) { Id = Guid.NewGuid().ToString(), SnapshotEvery = 50 }.Begin();
        await Work(ledger, 60);
        var closed = ledger.Writer.Serial;
        await ledger.Roll(Guid.NewGuid().ToString());
        await Work(ledger, 60);
        await Send(ledger, database);

        foreach (var serial in new[] { closed / 2, closed - 3, closed + 3, closed + 60 })
        {
            await Same(ledger, database, new() { Serial = serial, Before = Before, After = After });
        }
    }

    [Fact]
    public async Task Minutes_around_a_step_of_the_clock_or_without_entries_need_the_whole_ledger()
    {
        var database = await server.Prepared();
        using var ledger = await new Local(_time) { Id = Guid.NewGuid().ToString(), SnapshotEvery = 50 }.Begin();
        await Work(ledger, 20);
        var before = _time.GetUtcNow();
        _time.Advance(TimeSpan.FromHours(1));
        await Work(ledger, 20);
        _time.Set(TimeSpan.FromMinutes(-5));
        await Work(ledger, 20);
        await Send(ledger, database);
        var step = Assert.Single(ledger.Rows(), r => r.Kind == "clock-step");

        Assert.Null(await Same(ledger, database, new() { Serial = step.Serial, Before = Before, After = After }));
        Assert.Null(await Same(ledger, database, new() { At = before + TimeSpan.FromMinutes(30), Before = Before, After = After }));
        Assert.NotNull(await Same(ledger, database, new() { At = before, Before = Before, After = After }));
    }

    /// <summary>Compares the review from the store with that of the folder; how many rows it read, null when it needs the whole ledger.</summary>
    private async Task<int?> Same(Local ledger, Database database, ReviewQuestion question)
    {
        var folder = Directory.CreateDirectory(Path.Combine(_folder, Guid.NewGuid().ToString())).FullName;
        await using var connection = await PlantConnection.To(database.Address(), default);
        var all = await StoredLedgers.All(connection, database.Address(), default);
        if (!await new StoredMinutes(connection, database.Address()).Make(StoredChoice.Of(all, null, null, out _)!, all, question, folder, default))
        {
            Assert.Empty(Directory.GetFileSystemEntries(folder));
            return null;
        }

        Assert.Equal(Said(ledger.Folder, question), Said(folder, question));
        return Running.Expected(Path.Combine(folder, LedgerFile.Name)).Count;
    }

    private static string Said(string folder, ReviewQuestion question)
    {
        var review = LedgerReview.Of(folder, question, null, Display.Plain, default)!;
        Assert.NotEmpty(review.Entries);
        return JsonSerializer.Serialize(review, AsText);
    }

    private async Task Work(Local ledger, int count)
    {
        for (var i = 0; i < count; i++)
        {
            _time.Advance(TimeSpan.FromSeconds(3));
            if (i % 12 == 0)
            {
                await ledger.Do<MeasurementBody>(Local.Measured(0.09 + (i * 1e-6), lot: "L1"));
            }

            var answer = await ledger.Do<AnswerBody>(i % 5 == 0 ? Local.Locate() : Local.Locate(diameter: null));
            if (i % 3 > 0)
            {
                await ledger.CarryOut(answer);
            }
        }
    }

    private static async Task Send(Local ledger, Database database)
    {
        await using var running = new Running(ledger, database.Address());
        await running.Stores(ledger.Writer.Serial);
    }
}
