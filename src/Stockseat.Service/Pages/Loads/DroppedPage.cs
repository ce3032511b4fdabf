using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Referring;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Sheets.Entries;

namespace Stockseat.Service.Pages.Loads;

/// <summary>Says that the move of an answer of a load was not carried out: /dropped/SERIAL.</summary>
internal sealed class DroppedPage(IAnswerer answerer, EntryLook entries, Display display) : AnswerPage(answerer, entries, display)
{
    private readonly Display _display = display;

    public override string Name => DroppedAsk.VerbName;

    protected override AnswerAsk Ask(Caller caller, long serial, string by) => new DroppedAsk(caller, serial) { By = by };

    protected override string After(EntryBody entry) => $"/load/{entry.Fixture}";

    protected override PageReply Show(PageRequest request, AnswerBody answer, PageForm form, int status = StatusCodes.Status200OK) => PageReply.Show(
        DroppedSlice.Create(new(
            request.Frame($"Answer {answer.Serial} was not carried out"), EntryText.Of(answer, _display.Length) ?? "", answer.Serial, answer.Fixture!,
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
