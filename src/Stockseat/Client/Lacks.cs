using Stockseat.Answers.State;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>Reads what a service says is lacking until a revision is proven.</summary>
internal static class Lacks
{
    public static Proof.Lack Of(LackingRecheck l) =>
        new(l.Column, l.Row, l.HasAtMostMetres ? l.AtMostMetres : null, l.HasAtLeastMetres ? l.AtLeastMetres : null);
}
