namespace Stockseat.Answers.Entries;

/// <summary>How far something was found from where it was predicted, in the axes of the plan: found minus predicted, in metres.</summary>
public sealed record PlanMiss
{
    /// <summary>Along the seat axis, v.</summary>
    public required double Along { get; init; }

    /// <summary>Across it, u.</summary>
    public required double Across { get; init; }

    /// <summary>Out of the plan, w: nothing is ever corrected in this direction.</summary>
    public required double OutOfPlan { get; init; }
}
