using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Referring;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Sheets.Entries;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>Says that the move of an answer was carried out: /done/SERIAL. The answer must have been confirmed with its numbers.</summary>
internal sealed class DonePage(IAnswerer answerer, EntryLook entries, Display display) : AnswerPage(answerer, entries, display)
{
    private readonly IAnswerer _answerer = answerer;
    private readonly Display _display = display;

    public override string Name => DoneAsk.VerbName;

    protected override AnswerAsk Ask(Caller caller, long serial, string by) => new DoneAsk(caller, serial) { By = by };

    protected override string After(EntryBody entry) => $"/{(entry is DoneBody { Load: not null } ? "load" : "fixture")}/{entry.Fixture}";

    /// <summary>The nest of the unfinished move of a load whose numbers were never read back; null for any other answer.</summary>
    private string? Settled(AnswerBody answer) => _answerer.Situation.Find(answer.Fixture!) is { Load.Open: { } open } state && open.Answer == answer.Serial
        && !state.Progress.Received.ContainsKey(answer.Serial) ? FormattableString.Invariant($"{open.Column},{open.Row}") : null;

    protected override PageReply Show(PageRequest request, AnswerBody answer, PageForm form, int status = StatusCodes.Status200OK) => PageReply.Show(
        DoneSlice.Create(new(
            request.Frame($"Answer {answer.Serial} was carried out"), EntryText.Of(answer, _display.Length) ?? "", answer.Serial, answer.Fixture!,
            Settled(answer), form)),
        status);
}
