using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Pages;

/// <summary>A form with which a person says what came of the move of an answer: /VERB/SERIAL.</summary>
internal abstract class AnswerPage(IAnswerer answerer, EntryLook entries, Display display) : IPage
{
    private const string By = "by";

    /// <summary>The name of the verb, too.</summary>
    public abstract string Name { get; }

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

        var ask = Ask(request.Caller with { Request = form.Request }, serial, by) with { Fixtures = request.Client.Fixtures, OwnAnswersOnly = true };
        var outcome = await answerer.Ask(request.Client.Permit(ask));
        return outcome.Refusal is not { } refusal
            ? PageReply.See(After(outcome.Entry))
            : OnAnswer(request, answer => Show(
                request, answer, request.Again(form, [refusal.In(display.Length)], keep: refusal.Info.Class == ReasonClass.Service),
                PageReply.StatusOf(refusal.Reason)));
    }

    public Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(
        OnAnswer(request, answer => Show(request, answer, request.Again(form, [said], keep: true), StatusCodes.Status409Conflict)));

    /// <summary>What the form asks.</summary>
    protected abstract AnswerAsk Ask(Caller caller, long serial, string by);

    /// <summary>The address of the page after it was recorded.</summary>
    protected abstract string After(EntryBody entry);

    /// <summary>The page with the form.</summary>
    protected abstract PageReply Show(PageRequest request, AnswerBody answer, PageForm form, int status = StatusCodes.Status200OK);

    private static long? SerialOf(PageRequest request) =>
        request.Path is [var text] && long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var serial) ? serial : null;

    private PageReply OnAnswer(PageRequest request, Func<AnswerBody, PageReply> show)
    {
        if (SerialOf(request) is not { } serial)
        {
            return PageReply.NoPage;
        }

        var client = request.Client;
        return client.Lacks(Roles.Locate, Name) is { } lacking ? PageReply.Refused(lacking)
            : entries.Find(serial) is not AnswerBody answer
                ? PageReply.Problem(StatusCodes.Status404NotFound, "There is no such answer", "No entry of this serial is an answer; see the ledger.")
            : client.MaySee(answer.Fixture!) ? show(answer) : PageReply.Refused(client.Foreign(answer.Fixture!));
    }
}
