using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Locate;

/// <summary>Where would the origin, or a nest, be? For training, and for testing a program.</summary>
internal sealed class TrialVerb : ServingVerb<TrialBody>
{
    public override string Name => LocateAsk.TrialName;

    public override EntryKind Kind { get; } = new TrialKind();
}
