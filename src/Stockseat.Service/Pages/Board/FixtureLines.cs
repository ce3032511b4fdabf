using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Board;

/// <summary>What is known of a fixture, in lines.</summary>
/// <param name="answerer">What stands.</param>
/// <param name="entries">The entries.</param>
/// <param name="display">How lengths and times are shown.</param>
/// <param name="now">The instant.</param>
public sealed class FixtureLines(IAnswerer answerer, EntryLook entries, Display display, DateTimeOffset now)
{
    /// <summary>The line that says that an answer has to be run at reduced speed.</summary>
    public const string First = "First";

    private const string Diameter = "Diameter";
    private const string MeasuredWhen = "Measured";

    /// <summary>Whether a fixture answers, and why not; a controller that states diameters needs no measurement.</summary>
    public (AnswerState Answer, Refusal? Why) Judge(FixtureState state) =>
        Refused(state) is { } refused ? (AnswerState.Silent, refused)
        : UsableMeasurement.Refused(state, answerer.Situation.StepBack, now) is { } unmeasured && Newest(state) is not { Measurement: null }
            ? (AnswerState.MeasureFirst, unmeasured)
            : (AnswerState.Answers, null);

    /// <summary>Whether a line says why it has to be measured first.</summary>
    public static bool IsOfMeasurement(BoardLine line) => line.Term is Diameter or MeasuredWhen;

    /// <summary>What is known of a fixture.</summary>
    public IEnumerable<BoardLine> Of(FixtureState state)
    {
        yield return new("Lot", state.Measurement is { } m ? m.Lot ?? "not named" : "none");
        foreach (var line in Measured(state).Concat(LastAnswer(state)).Append(Revision(state)))
        {
            yield return line;
        }

        if (state.Load is { } load)
        {
            yield return new("Nests", LoadWords.Of(state), load.Open is not null || load.Raw.Count == 0);
        }

        if (state.Unproven is { Count: > 0 } lacks)
        {
            yield return new(
                "Not proven", string.Join("; ", lacks.Select(l => Proof.Said(l, display.Length)))
                    + (answerer.ProvingRequired ? "; until then every answer stays first" : ""), true);
        }

        var waiting = state.Waiting.ToList();
        if (waiting.Count > 0)
        {
            yield return new("Waiting", $"revision {string.Join(", ", waiting)} waits to be adopted", true);
        }

        if (state.Missed is { } missed)
        {
            yield return new(
                "Recheck missed", $"{EntryText.Recheck((RecheckBody)missed.Entry, display.Length)}"
                    + (missed.Refuses ? "" : "; asks are still answered; calibrate the fixture and adopt the new revision"), true);
        }

        foreach (var fault in state.Folder?.AllFaults ?? [])
        {
            yield return new("File", fault, true);
        }
    }

    private Refusal? Refused(FixtureState state) =>
        answerer.Writable ? state.Refused : Refusal.Of(Reason.LedgerUnavailable, "the ledger can't be written");

    private static BoardLine Revision(FixtureState state) => state.InForce is not { } revision
        ? new("Revision", "none is in force", true)
        : new("Revision", $"{PrintedNumbers.Whole(revision.Number)}{(state.Unproven.Count == 0 ? ", proven" : "")}");

    private IEnumerable<BoardLine> Measured(FixtureState state)
    {
        if (state.Measurement is not { } m)
        {
            yield return state.NoMeasurement == FixtureState.NothingMeasured
                ? new(Diameter, "not measured") : new(Diameter, $"not measured: {state.NoMeasurement}", true);
            yield break;
        }

        yield return new(Diameter, display.Length.FixedText(m.DiameterMetres));
        var age = now - m.At;
        var entry = $"entry {PrintedNumbers.Whole(m.Serial)}";
        yield return answerer.Situation.Doubts(m)
            ? new(MeasuredWhen, $"the clock was set back since, so its age is not known; measure again ({entry})", true)
            : age > m.FreshFor
                ? new(MeasuredWhen, $"{AgeText.Of(age)} ago, which is too old (at most {PrintedNumbers.Duration(m.FreshFor)}); measure again ({entry})", true)
                : new(MeasuredWhen, $"{AgeText.Of(age)} ago ({entry})");
    }

    /// <summary>The newest answer, and how far the controller has come with it.</summary>
    private IEnumerable<BoardLine> LastAnswer(FixtureState state)
    {
        var serial = Serial(state);
        if (serial == 0)
        {
            yield return new("Last answer", "none");
            yield break;
        }

        var body = Newest(state);
        var entry = $"entry {PrintedNumbers.Whole(serial)}";
        yield return new("Last answer", body is null ? entry
            : $"{EntryText.Ask(body.Purpose, body.Nest)}, {display.Length.FixedText(body.Diameter)}, {Ago(body)} ({entry})");
        var progress = state.Progress;
        var isDone = progress.Nests.Values.Any(n => n.Answer == serial);
        var isVoid = serial <= progress.Since;
        yield return new(
            "Received", isDone || progress.Received.ContainsKey(serial) ? "yes" : isVoid ? "not before the last adoption or missed recheck"
                : "not yet: no correct read-back came");
        yield return new("Carried out", isDone ? "yes" : isVoid ? "not before the last adoption or missed recheck" : "not yet");
        if (body is { First: true } && !isDone)
        {
            yield return new(First, "yes: run it at reduced speed, with people clear", true);
        }
    }

    private static long Serial(FixtureState state) => Math.Max(state.Served.Pick, state.Served.Place);

    private ServedBody? Newest(FixtureState state) => Serial(state) is > 0 and var serial ? entries.Find(serial) as ServedBody : null;

    private string Ago(ServedBody body) => EntryTime.TryParse(body.At, out var at) ? $"{AgeText.Of(now - at)} ago" : "";
}
