using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Locate;

/// <summary>Where is the origin, or a nest, now?</summary>
internal sealed class LocateVerb : ServingVerb<AnswerBody>
{
    public override string Name => LocateAsk.VerbName;

    public override EntryKind Kind { get; } = new AnswerKind();
}
