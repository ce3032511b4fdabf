using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Locate;

/// <summary>The move of an answer of a load: unfinished until somebody says what came of it.</summary>
public static class UnfinishedMove
{
    /// <summary>The move of an answer.</summary>
    public static OpenMove Of(AnswerBody answer) => new(answer, PurposeNames.Find(answer.Purpose) ?? Purpose.Pick, answer.Nest[0], answer.Nest[1]);
}
