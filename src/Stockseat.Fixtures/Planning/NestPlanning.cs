namespace Stockseat.Fixtures.Planning;

/// <summary>The answer to a planning question.</summary>
/// <param name="Question">The question.</param>
/// <param name="Judged">All candidates, best first: those that hold the whole range, then by the share of it that they hold, by margin, by gap.</param>
/// <param name="Overlapping">How many combinations were left out because their pins would overlap.</param>
public sealed record NestPlanning(PlanningQuestion Question, IReadOnlyList<JudgedCandidate> Judged, int Overlapping)
{
    /// <summary>How many candidates hold the whole range.</summary>
    public int Holding => Judged.Count(j => j.Holds);
}
