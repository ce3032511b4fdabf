using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Measure;

/// <summary>
/// A person with a caliper: /measure, /measure/FIXTURE to type readings, /measure/FIXTURE/check to see what they mean and to send them. The address of the
/// check has all that was typed and the id of its form, so Back, reload and a lost connection show what is known: whether that form was sent, and what came of
/// it.
/// </summary>
internal sealed class MeasurePage(IAnswerer answerer, EntryLook entries, Display display, TimeProvider time) : IPage
{
    private const string Check = "check";

    public string Name => "measure";

    public string Menu => "Measure";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(request.Path switch
    {
        [] => Choose(request),
        [var fixture] => OnFixture(request, fixture, state => Type(request, state, MeasureInput.Of(request.Query), [])),
        [var fixture, Check] => OnFixture(request, fixture, state => ShowCheck(request, state)),
        _ => PageReply.NoPage,
    });

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (request.Path is not [var fixture, Check])
        {
            return PageReply.NoForm;
        }

        var input = MeasureInput.Of(name => form[name]);
        var here = input.Address(request.Whole, form.Request);
        if (Sent(request, form.Request) is not null)
        {
            return PageReply.See(here); // Asked once more it might be refused, and a refusal voids the newer measurement.
        }

        var (push, faults) = input.Read(Caller(request, form.Request), fixture, answerer);
        if (push is null)
        {
            return OnFixture(request, fixture, state => Type(request, state, input, faults));
        }

        var outcome = await answerer.Ask(request.Client.Permit(push));
        return outcome.Refusal is null || Sent(request, form.Request) is not null
            ? PageReply.See(here)
            : OnFixture(request, fixture, state => Decide(
                request, state, input, form.Request, [outcome.Refusal.In(display.Length)], PageReply.StatusOf(outcome.Refusal.Reason)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(request.Path is not [var fixture, Check]
        ? PageReply.NoForm
        : Sent(request, form.Request) is not null
            ? PageReply.See(MeasureInput.Of(name => form[name]).Address(request.Whole, form.Request))
            : OnFixture(request, fixture, state => Decide(
                request, state, MeasureInput.Of(name => form[name]), form.Request, [said], StatusCodes.Status409Conflict)));

    /// <summary>What is measured now, in words.</summary>
    private string Measured(FixtureState state) => state.Measurement is not { } m
        ? state.NoMeasurement == FixtureState.NothingMeasured ? "Nothing is measured." : $"No measurement counts: {state.NoMeasurement}."
        : $"{display.Length.FixedText(m.DiameterMetres)}, {(m.Lot is { } lot ? $"lot {lot}" : "no lot named")}, "
            + $"measured {AgeText.Of(time.GetUtcNow() - m.At)} ago (entry {PrintedNumbers.Whole(m.Serial)}).";

    private PageReply Choose(PageRequest request) => Lacking(request) ?? PageReply.Show(ChooseSlice.Create(new(
        request.Frame("Measure"),
        [.. answerer.Situation.Fixtures.Where(f => request.Client.MaySee(f.Fixture)).Select(f => (f.Fixture, Measured(f)))])));

    private static PageReply? Lacking(PageRequest request) =>
        request.Client.Lacks(Roles.Measure, MeasureAsk.VerbName) is { } lacking ? PageReply.Refused(lacking) : null;

    private PageReply OnFixture(PageRequest request, string fixture, Func<FixtureState, PageReply> show) => Lacking(request)
        ?? (!NameText.MayBeFixture(fixture)
                ? PageReply.Refused(Refusal.Of(Reason.FixtureUnknown, $"'{Refusal.Shown(fixture)}' is not the name of a fixture"))
            : !request.Client.MaySee(fixture) ? PageReply.Refused(request.Client.Foreign(fixture))
            : answerer.Situation.Find(fixture) is { } state ? show(state) : PageReply.Refused(answerer.Unknown(fixture)));

    private PageReply Type(PageRequest request, FixtureState state, MeasureInput input, IReadOnlyList<string> faults)
    {
        var lots = answerer.Lots.Keys.Concat(answerer.Situation.Lots.Keys).Distinct().Order(StringComparer.Ordinal);
        var require = request.Client.Require;
        return PageReply.Show(
            TypeSlice.Create(new(
                request.Frame($"Measure {state.Fixture}"), state.Fixture, Measured(state), input, faults,
                [.. answerer.Gauges.Order(StringComparer.Ordinal)], [.. lots], require.Contains("gauge"), require.Contains("lot"),
                state.InForce?.Grip is { } grip ? display.Length.Text(grip.TaughtLengthMetres) : null, state.Load is not null)),
            faults.Count > 0 ? StatusCodes.Status400BadRequest : StatusCodes.Status200OK);
    }

    private PageReply ShowCheck(PageRequest request, FixtureState state)
    {
        var input = MeasureInput.Of(request.Query);
        return request.Query(MeasureInput.IdField) is not { } id || !FormTokens.IsRequest(id)
                ? PageReply.See(input.Address(request.Whole, FormTokens.RequestOf(request.NewForm().Token)))
            : Sent(request, id) is { } sent ? ShowSent(request, state, input, sent)
            : Decide(request, state, input, id, [], StatusCodes.Status200OK);
    }

    /// <summary>Shows what would come of it if it were sent now.</summary>
    private PageReply Decide(PageRequest request, FixtureState state, MeasureInput input, string id, IReadOnlyList<string> said, int status)
    {
        var (push, faults) = input.Read(Caller(request, id), state.Fixture, answerer);
        if (push is null)
        {
            return Type(request, state, input, input.IsEmpty ? [] : faults);
        }

        var now = time.GetUtcNow();
        var situation = answerer.Situation;
        var (body, after) = MeasureMeaning.Of(request.Client.Permit(push), situation, answerer.Serial, now);
        var verdict = body is RefusalBody refused
            ? new Verdict(false, "This would be refused", refused.In(display.Length).Text, VoidingPush.Is(refused) && state.Measurement is not null)
            : new Verdict(true, "This would be taken", null, false);
        var form = request.Again(new SentForm(new Dictionary<string, string>(), id), said, keep: true);
        var next = verdict.IsTaken ? Next(after, body, now) : null;
        return Show(request, state, new(
            request.Frame($"Check before sending: {state.Fixture}"), state.Fixture, form, input, verdict, MeasureMeaning.Stock(body, push.ReadingsSent),
            $"Until now: {Measured(state)}", next, null), status);
    }

    /// <summary>Shows what came of it.</summary>
    private PageReply ShowSent(PageRequest request, FixtureState state, MeasureInput input, EntryBody sent)
    {
        var isTaken = sent is MeasurementBody;
        var entry = $"entry {PrintedNumbers.Whole(sent.Serial)}";
        var counts = isTaken && (sent is MeasurementBody { Nest: [var column, var row] }
            ? state.Load?.Measured.GetValueOrDefault((column, row))?.Serial : state.Measurement?.Serial) == sent.Serial;
        var verdict = new Verdict(
            isTaken, isTaken ? $"Recorded as {entry}" : $"Refused, and recorded as {entry}",
            isTaken ? counts ? "The next ask uses it." : "It does not count any more." : EntryText.Of(sent, display.Length), false);
        var now = time.GetUtcNow();
        var next = counts ? Next(answerer.Situation, sent, now) : null;
        return Show(request, state, new(
            request.Frame($"{(isTaken ? "Sent" : "Refused")}: {state.Fixture}"), state.Fixture, null, input, verdict,
            MeasureMeaning.Stock(sent, (sent as RefusalBody)?.Sent), counts ? "" : $"Now: {Measured(state)}", next, null), StatusCodes.Status200OK);
    }

    private PageReply Show(PageRequest request, FixtureState state, CheckModel model, int status)
    {
        var drawing = model.Stock.Readings.Count > 0 ? MeasureMeaning.Draw(state, model.Stock.DiameterMetres, display.Length) : null;
        var side = MeasureMeaning.Side(state, model.Stock.LengthMetres, display.Length);
        return PageReply.Show(CheckSlice.Create(model with { Drawing = drawing, Side = side }), status);
    }

    /// <summary>What an ask for the nest that was measured would get; for the nest 0,0 when the whole fixture's stock was.</summary>
    private NextModel Next(Situation situation, EntryBody measured, DateTimeOffset now)
    {
        var nest = (measured as MeasurementBody)?.Nest;
        return MeasureMeaning.Next(
            nest is [var column, var row] ? MeasureMeaning.Nest(column, row) : MeasureMeaning.Nest(0, 0),
            NextPick.Of(situation, measured.Fixture!, now, answerer.ProvingRequired, nest), display.Length);
    }

    /// <summary>The entry of a form that was sent; null: it was not, as far as the ledger says.</summary>
    private EntryBody? Sent(PageRequest request, string id) => entries.OfRequest(request.Client.Name, id);

    private static Answers.Asking.Caller Caller(PageRequest request, string id) => request.Caller with
    {
        Request = id,
        Tag = request.Client.Require.Contains("tag") ? "page" : null, // Tags tell late replies apart; a browser has no need of them.
    };
}
