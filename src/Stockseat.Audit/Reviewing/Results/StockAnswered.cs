using Stockseat.Answers.Locate;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>The stock that an answer was for.</summary>
/// <param name="Serial">The answer.</param>
/// <param name="Lot">Its lot; null when nobody named one.</param>
/// <param name="DiameterMetres">Its diameter, in metres.</param>
/// <param name="Revision">The revision that it was answered from.</param>
public sealed record StockAnswered(long Serial, string? Lot, double DiameterMetres, int? Revision)
{
    internal static StockAnswered? Of(AnswerBody? answer) =>
        answer is null ? null : new(answer.Serial, answer.Lot, answer.Diameter, answer.Revision);
}
