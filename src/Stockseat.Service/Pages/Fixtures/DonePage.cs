using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Done;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;
using Stockseat.Sheets.Entries;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>Says that the move of an answer was carried out: /done/SERIAL. The answer must have been confirmed with its numbers.</summary>
internal sealed class DonePage(IAnswerer answerer, EntryLook entries, Display display) : IPage
{
    private const string By = "by";

    public string Name => "done";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(OnAnswer(request, answer => Show(request, answer, request.NewForm())));

    public async Task<PageReply> Post(PageRequest request, SentForm form)
    {
        if (SaidText.Read(form[By]) is not { } by)
        {
            var fault = SaidText.Fault("Who you are", form[By]);
            return OnAnswer(request, answer => Show(request, answer, request.Again(form, [fault], keep: true), StatusCodes.Status400BadRequest));
        }

        if (SerialOf(request) is not { } serial)
        {
            return PageReply.NoPage;
        }

        var outcome = await answerer.Ask(request.Client.Permit(new DoneAsk(request.Caller with { Request = form.Request }, serial)
        {
            By = by, Fixtures = request.Client.Fixtures, OwnAnswersOnly = true,
        }));
        return outcome.Refusal is not { } refusal
            ? PageReply.See($"/{(outcome.Entry is DoneBody { Load: not null } ? "load" : "fixture")}/{outcome.Entry.Fixture}")
            : OnAnswer(request, answer => Show(
                request, answer, request.Again(form, [refusal.In(display.Length)], keep: refusal.Info.Class == ReasonClass.Service),
                PageReply.StatusOf(refusal.Reason)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnAnswer(request, answer => Show(request, answer, request.Again(form, [said], keep: true), StatusCodes.Status409Conflict)));

    private static long? SerialOf(PageRequest request) =>
        request.Path is [var text] && long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var serial) ? serial : null;

    private PageReply OnAnswer(PageRequest request, Func<AnswerBody, PageReply> show)
    {
        if (SerialOf(request) is not { } serial)
        {
            return PageReply.NoPage;
        }

        var client = request.Client;
        return client.Lacks(Roles.Locate, DoneAsk.VerbName) is { } lacking ? PageReply.Refused(lacking)
            : entries.Find(serial) is not AnswerBody answer
                ? PageReply.Problem(StatusCodes.Status404NotFound, "There is no such answer", "No entry of this serial is an answer; see the ledger.")
            : client.MaySee(answer.Fixture!) ? show(answer) : PageReply.Refused(client.Foreign(answer.Fixture!));
    }

    /// <summary>The nest of the unfinished move of a load whose numbers were never read back; null for any other answer.</summary>
    private string? Settled(AnswerBody answer) => answerer.Situation.Find(answer.Fixture!) is { Load.Open: { } open } state && open.Answer == answer.Serial
        && !state.Progress.Received.ContainsKey(answer.Serial) ? FormattableString.Invariant($"{open.Column},{open.Row}") : null;

    private PageReply Show(PageRequest request, AnswerBody answer, PageForm form, int status = StatusCodes.Status200OK) => PageReply.Show(
        DoneSlice.Create(new(
            request.Frame($"Answer {answer.Serial} was carried out"), EntryText.Of(answer, display.Length) ?? "", answer.Serial, answer.Fixture!,
            Settled(answer), form)),
        status);
}
