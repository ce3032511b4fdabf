using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Locate;

/// <summary>What the uncertainty of an answer is made of.</summary>
public static class AnswerBudgets
{
    /// <summary>The budgets behind an answer, from what its entry and the revision hold: of the nest, and for nest 0,0 of the worst one too.</summary>
    public static IReadOnlyList<NestBudget> Of(Revision revision, AnswerBody answer) => answer.Uncertainty is null
        ? [] // One of a version before did not say how sure it is.
        : NestBudget.Of(revision, answer.Diameter, answer.StandOff, answer.From, answer.Nest[0], answer.Nest[1]);
}
