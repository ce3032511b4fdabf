using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Stock;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Pages.Measure;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Lots;

/// <summary>The lots, /lots, and a lot that somebody describes: /lots/check shows what was understood before it is sent.</summary>
internal sealed class LotsPage(IAnswerer answerer, EntryLook entries, Display display, TimeProvider time) : IPage
{
    private const string Check = "check", DoneKey = "entry";

    public string Name => "lots";

    public string Menu => "Lots";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(request.Path switch
    {
        [] => List(request, Typed(request), []),
        [Check] => Denied(request) ?? Decide(request, Typed(request), request.NewForm(), StatusCodes.Status200OK),
        _ => PageReply.NoPage,
    });

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if ((request.Path is [Check] ? Denied(request) : PageReply.NoForm) is { } denied)
        {
            return denied;
        }

        var input = new LotInput(name => form[name]);
        var (ask, faults) = input.Read(request.Caller with { Request = form.Request }, answerer);
        if (ask is null)
        {
            return List(request, input, faults);
        }

        var outcome = await answerer.Ask(request.Client.Permit(ask));
        if (outcome.Refusal is not { } refusal)
        {
            return PageReply.See(FormattableString.Invariant($"/lots?{DoneKey}={outcome.Entry.Serial}"));
        }

        // A refusal of the service itself may come after the entry was written: sent again, the form is still the same one.
        var again = request.Again(form, [refusal.In(display.Length)], keep: refusal.Info.Class == ReasonClass.Service);
        return Decide(request, input, again, PageReply.StatusOf(refusal.Reason));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        request.Path is not [Check] ? PageReply.NoForm
        : Denied(request)
            ?? Decide(request, new(name => form[name]), request.Again(form, [said], keep: true), StatusCodes.Status409Conflict));

    private static PageReply? Denied(PageRequest request) =>
        request.Client.Lacks(Roles.Calibrate, DescribeLotAsk.VerbName) is { } lacking ? PageReply.Refused(lacking) : null;

    private static LotInput Typed(PageRequest request) => new(request.Query);

    private PageReply List(PageRequest request, LotInput input, IReadOnlyList<string> faults)
    {
        var described = answerer.Situation.Lots.Where(l => !answerer.Lots.ContainsKey(l.Key))
            .Select(l => Shown(l.Key, l.Value.Terms, $"entry {PrintedNumbers.Whole(l.Value.Serial)}"));
        var lots = answerer.Lots.Select(l => Shown(l.Key, l.Value, "the configuration")).Concat(described).OrderBy(l => l.Name, StringComparer.Ordinal);
        return PageReply.Show(
            LotsSlice.Create(new(
                request.Frame("Lots"), Done(request), [.. lots], request.Client.Roles.HasFlag(Roles.Calibrate), input, faults, Tolerances.Known)),
            faults.Count > 0 ? StatusCodes.Status400BadRequest : StatusCodes.Status200OK);
    }

    /// <summary>Shows what would come of it if it were sent now.</summary>
    private PageReply Decide(PageRequest request, LotInput input, PageForm form, int status)
    {
        var (ask, faults) = input.Read(request.Caller, answerer);
        if (ask is null)
        {
            return List(request, input, faults);
        }

        var body = Decision.Decide(request.Client.Permit(ask), answerer.Situation, time.GetUtcNow(), _ => null);
        var before = answerer.Lots.TryGetValue(ask.Lot, out var configured) ? Shown(ask.Lot, configured, "the configuration")
            : answerer.Situation.Lots.GetValueOrDefault(ask.Lot) is { } lot ? Shown(ask.Lot, lot.Terms, $"entry {PrintedNumbers.Whole(lot.Serial)}")
            : null;
        return PageReply.Show(
            LotCheckSlice.Create(new(
                request.Frame($"Check before sending: lot {ask.Lot}"), Shown(ask.Lot, ask.Terms, "this form"), before,
                (body as RefusalBody)?.In(display.Length).Text, form, input)),
            status);
    }

    /// <summary>What this client has just done, from its entry: the address alone proves nothing.</summary>
    private string? Done(PageRequest request) =>
        long.TryParse(request.Query(DoneKey), NumberStyles.None, CultureInfo.InvariantCulture, out var serial)
            && entries.Find(serial) is LotDescribedBody body && body.Client == request.Client.Name
            ? $"Recorded as entry {PrintedNumbers.Whole(serial)}: {EntryText.Of(body, display.Length)}" : null;

    private static ShownLot Shown(string name, LotTerms terms, string from) => new(
        name, Both(terms.Nominal), Both(terms.Least), Both(terms.Greatest), Both(terms.OutOfRound),
        terms is { Length: { } length, LengthPlus: { } plus, LengthMinus: { } minus }
            ? (MeasureMeaning.Both(length - minus), MeasureMeaning.Both(length + plus)) : null,
        terms.Tolerance ?? "", from);

    private static BothUnits? Both(double? metres) => metres is { } m ? MeasureMeaning.Both(m) : null;
}
