using Stockseat.Answers.Locate;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>Answers with the same key are compared with each other.</summary>
internal readonly record struct AnswerKey(string? Fixture, string Purpose, int Column, int Row)
{
    public static AnswerKey Of(AnswerBody answer) => new(answer.Fixture, answer.Purpose, answer.Nest[0], answer.Nest[1]);
}
