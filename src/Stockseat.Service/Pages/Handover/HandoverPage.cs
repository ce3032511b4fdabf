using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Notes;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Pages.Board;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Handover;

/// <summary>One sheet to print for whoever comes next: what is open, how the fixtures are, what the last hours brought.</summary>
internal sealed class HandoverPage(IAnswerer answerer, EntryLook entries, PageLedger ledger, Display display, TimeProvider time) : IPage
{
    /// <summary>So many rows of a table fit on one sheet with the rest.</summary>
    private const int MostRows = 12;

    private const string FirstAnswer = "First answer";

    private static readonly int[] Choices = [8, 12, 24];

    public string Name => "handover";

    public string Menu => "Handover";

    public async Task<PageReply> Get(PageRequest request)
    {
        if (request.Path.Count > 0)
        {
            return PageReply.NoPage;
        }

        var now = time.GetUtcNow();
        var hours = Choices.FirstOrDefault(h => PrintedNumbers.Whole(h) == request.Query("hours"), Choices[^1]);
        var lines = new FixtureLines(answerer, entries, display, now);
        var states = answerer.Situation.Fixtures.Where(f => request.Client.MaySee(f.Fixture)).ToList();
        var known = states.ToDictionary(s => s.Fixture, s => lines.Of(s).ToList());
        var (day, why) = await Day(request, now, hours);
        return PageReply.Show(HandoverSlice.Create(new(
            request.Frame("Handover"), display.Times.Minute(now), hours, Choices, [.. states.SelectMany(s => Open(s, lines, known[s.Fixture], now))],
            [.. states.Select(s => new HandedFixture(s.Fixture, lines.Judge(s).Answer, [.. known[s.Fixture].Where(l => !l.Matters)]))], day, why)));
    }

    /// <summary>What somebody has to look at: the fixture does not answer, holds, and what the board marks.</summary>
    private IEnumerable<OpenPoint> Open(FixtureState state, FixtureLines lines, List<BoardLine> known, DateTimeOffset now)
    {
        var (answer, why) = lines.Judge(state);
        if (why is not null && state.Holds.IsEmpty)
        {
            yield return new(state.Fixture, answer.Said, why.In(display.Length));
        }

        foreach (var hold in state.Holds.Values.OrderBy(h => h.Serial))
        {
            yield return new(
                state.Fixture, "Held", $"by {hold.By} since {display.Times.Minute(hold.At)} (entry {PrintedNumbers.Whole(hold.Serial)}): {hold.Why}");
        }

        foreach (var line in known.Where(l => l.Matters && !(answer == AnswerState.MeasureFirst && FixtureLines.IsOfMeasurement(l))))
        {
            yield return line.Term == FixtureLines.First
                ? new(state.Fixture, FirstAnswer, "the last answer was not carried out; run it at reduced speed, with people clear")
                : new(state.Fixture, line.Term, line.Text);
        }

        if (!known.Exists(l => l.Term == FixtureLines.First)
            && NextPick.Of(answerer.Situation, state.Fixture, now, answerer.ProvingRequired) is ServedBody { First: true })
        {
            yield return new(state.Fixture, FirstAnswer, "the next pick at nest 0,0; run it at reduced speed, with people clear");
        }
    }

    private async Task<(DayModel? Day, string? Why)> Day(PageRequest request, DateTimeOffset now, int hours)
    {
        if (request.Client.Lacks(Roles.Review, "reading the ledger") is { } lacking)
        {
            return (null, lacking.Text);
        }

        var (day, trouble) = await ledger.Much(request, reader => DayReader.Read(reader, now.AddHours(-hours), request.Client.MaySee));
        return trouble is { Trouble: { } why } ? (null, why.Text) : (Shown(day!), null);
    }

    private DayModel Shown(DayTally day) => new(
        [.. day.Lots.Take(MostRows).Select(Row)], Math.Max(0, day.Lots.Count - MostRows),
        [.. day.Refused.Take(MostRows).Select(Row)], Math.Max(0, day.Refused.Count - MostRows),
        [.. day.Notes.Take(MostRows).Select(n => $"{At(n)}: {EntryText.Of(n, display.Length)}")],
        day.CutAt is null || !EntryTime.TryParse(day.CutAt, out var cut) ? null
            : $"Only the newest {PrintedNumbers.Whole(day.Looked)} entries were counted; entries up to {display.Times.Minute(cut)} are left out.",
        display.Length.Symbol);

    private LotRow Row(LotOfDay l) => new(
        l.Lot ?? "not named", l.Fixture, PrintedNumbers.Whole(l.Measured),
        l.Measured == 0 ? "" : l.Least == l.Greatest ? Number(l.Least) : $"{Number(l.Least)} to {Number(l.Greatest)}",
        PrintedNumbers.Whole(l.Answered), PrintedNumbers.Whole(l.Done));

    private RefusedRow Row(RefusedOfDay r) => new(
        PrintedNumbers.Whole(r.Count), r.Last.Fixture ?? "", r.Last.Asked, r.Last.Reason.Replace('-', ' '), At(r.Last), r.Last.Text);

    private string Number(double metres) => PrintedNumbers.Fixed(metres, display.Length);

    private string At(EntryBody body) => EntryTime.TryParse(body.At, out var at) ? display.Times.Minute(at) : body.At;
}
