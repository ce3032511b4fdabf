using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Load.Generating;

/// <summary>
/// The asks of an invented shop, the same each time: a fixture is filled, measured and emptied nest by nest, and then the next one.
/// Mostly answers; some measurements, confirmations and emptied nests; now and then a refusal.
/// </summary>
/// <param name="revisions">The revisions in force.</param>
/// <param name="next">The serial of the entry that the next ask leads to.</param>
/// <param name="cell">The cell that asks.</param>
internal sealed class Shop(IReadOnlyList<Revision> revisions, Func<long> next, string cell)
{
    private const int LeastFilling = 30;
    private const int MostFilling = 90;

    // One in this many asks is for stock outside every revision's envelope, and one in this many confirms what was served.
    private const int RefusedOneIn = 100;
    private const int ConfirmedOneIn = 25;

    private static readonly TimeSpan FreshFor = TimeSpan.FromHours(8);

    // One client with two addresses: the writer keeps the order of one client's asks, not of several clients'.
    private readonly Caller _gauge = new("controller", cell, "127.0.0.1:41002");
    private readonly Caller _controller = new("controller", cell, "127.0.0.1:41001");

    private readonly Random _random = new(20_260_504);
    private int _tag;

    /// <summary>Endless asks; each leads to one entry, in this order.</summary>
    public IEnumerable<Ask> Asks()
    {
        while (true)
        {
            foreach (var revision in revisions)
            {
                foreach (var ask in Filling(revision))
                {
                    yield return ask;
                }
            }
        }
    }

    private IEnumerable<Ask> Filling(Revision revision)
    {
        var diameter = Held(revision);
        yield return new MeasureAsk(_gauge, revision.Fixture) { ReadingsMetres = [diameter], Unit = "mm", Terms = new(null, null, FreshFor) };
        var count = _random.Next(LeastFilling, MostFilling);
        for (var i = 0; i < count; i++)
        {
            var serial = next();
            yield return Locate(revision, i);
            if (i == 0 || _random.Next(ConfirmedOneIn) == 0)
            {
                yield return new ConfirmAsk(_controller with { Tag = Tag() }, serial);
            }

            if (_random.Next(RefusedOneIn) == 0)
            {
                yield return new LocateAsk(_controller with { Tag = Tag() }, revision.Fixture) { DiameterMetres = 100 * revision.TaughtDiameterMetres };
            }
        }

        yield return new EmptiedAsk(_controller with { Tag = Tag() }, revision.Fixture);
    }

    private LocateAsk Locate(Revision revision, int i) => new(_controller with { Tag = Tag() }, revision.Fixture)
    {
        Column = i % revision.Layout.Columns,
        Row = i / revision.Layout.Columns % revision.Layout.Rows,
        DiameterMetres = i % 2 == 0 ? null : Held(revision),
    };

    /// <summary>A diameter near the taught one and within the envelope, to 0.01 mm as a gauge shows it.</summary>
    private double Held(Revision revision)
    {
        var diameter = Math.Round(revision.TaughtDiameterMetres * (0.95 + 0.1 * _random.NextDouble()), 5);
        return Fit.Judge(revision, diameter, Purpose.Pick, out _) is null ? diameter : revision.TaughtDiameterMetres;
    }

    private string Tag() => $"job-{_tag++ % 10_000}";
}
