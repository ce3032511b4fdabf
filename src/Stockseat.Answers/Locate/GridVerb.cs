using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Locate;

/// <summary>Where are all nests, now?</summary>
internal sealed class GridVerb : ServingVerb<GridBody>
{
    public override string Name => LocateAsk.GridName;

    public override EntryKind Kind { get; } = new GridKind();
}
