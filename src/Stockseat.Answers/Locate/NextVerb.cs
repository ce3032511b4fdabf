using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Locate;

/// <summary>Which nest of the load is next, and where is it? Its answers are answers as ever, which name their load.</summary>
internal sealed class NextVerb : ServingVerb<AnswerBody>
{
    public override string Name => LocateAsk.NextName;

    /// <summary>Its entries are those of <see cref="LocateVerb"/>.</summary>
    public override EntryKind? Kind => null;

    public override string Outcome => "answer";
}
