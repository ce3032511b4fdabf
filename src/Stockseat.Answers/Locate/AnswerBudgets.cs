using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Locate;

/// <summary>The components of the uncertainty of an answer.</summary>
public static class AnswerBudgets
{
    /// <summary>The budgets of an answer, from its entry and the revision: that of the nest, and for nest 0,0 that of the worst nest too.</summary>
    public static IReadOnlyList<NestBudget> Of(Revision revision, ServedBody answer) => answer.Uncertainty is null
        ? [] // An answer of an earlier version has no uncertainty.
        : NestBudget.Of(revision, answer.Diameter, answer.StandOff, answer.From, answer.Nest[0], answer.Nest[1]);
}
