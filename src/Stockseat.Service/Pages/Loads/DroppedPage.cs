using System.Globalization;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;
using Stockseat.Sheets.Entries;

namespace Stockseat.Service.Pages.Loads;

/// <summary>Says that the move of an answer of a load was not carried out: /dropped/SERIAL.</summary>
internal sealed class DroppedPage(IAnswerer answerer, EntryLook entries, Display display) : IPage
{
    private const string By = "by";

    public string Name => "dropped";

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

        var outcome = await answerer.Ask(request.Client.Permit(new DroppedAsk(request.Caller with { Request = form.Request }, serial)
        {
            By = by, Fixtures = request.Client.Fixtures, OwnAnswersOnly = true,
        }));
        return outcome.Refusal is not { } refusal
            ? PageReply.See($"/load/{outcome.Entry.Fixture}")
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
        return client.Lacks(Roles.Locate, DroppedAsk.VerbName) is { } lacking ? PageReply.Refused(lacking)
            : entries.Find(serial) is not AnswerBody answer
                ? PageReply.Problem(StatusCodes.Status404NotFound, "There is no such answer", "No entry of this serial is an answer; see the ledger.")
            : client.MaySee(answer.Fixture!) ? show(answer) : PageReply.Refused(client.Foreign(answer.Fixture!));
    }

    private PageReply Show(PageRequest request, AnswerBody answer, PageForm form, int status = StatusCodes.Status200OK) => PageReply.Show(
        DroppedSlice.Create(new(
            request.Frame($"Answer {answer.Serial} was not carried out"), EntryText.Of(answer, display.Length) ?? "", answer.Serial, answer.Fixture!,
            FormattableString.Invariant($"{answer.Nest[0]},{answer.Nest[1]}"), form)),
        status);
}

/// <summary>The form that says that a move was not carried out.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Text">The answer, in words.</param>
/// <param name="Serial">Its serial.</param>
/// <param name="Fixture">Its fixture.</param>
/// <param name="Nest">Its nest.</param>
/// <param name="Form">The form.</param>
public sealed record DroppedModel(PageFrame Frame, string Text, long Serial, string Fixture, string Nest, PageForm Form);
