using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Locate;

/// <summary>The rule for <c>first</c>: whether an answer has to be run at reduced speed.</summary>
internal static class FirstMark
{
    /// <summary>Yes after an adoption, or when the shift differs from the last confirmed one by more than the limit.</summary>
    /// <param name="state">The fixture, with a revision in force.</param>
    /// <param name="purpose">The purpose for which the stock is asked for.</param>
    /// <param name="shiftBase">The shift in base, in metres.</param>
    public static bool Is(FixtureState state, Purpose purpose, Vector3 shiftBase) =>
        state.Confirmed(purpose) is not { } confirmed
        || (shiftBase - new Vector3(confirmed.X, confirmed.Y, confirmed.Z)).Length > (state.InForce!.Limits.FirstAboveMetres ?? 0);
}
