using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Locate;

/// <summary>The rule for <c>first</c>: whether an answer has to be run at reduced speed.</summary>
internal static class FirstMark
{
    /// <summary>
    /// Yes until an answer for this purpose and nest was carried out since the adoption, or since a recheck missed; when the shift differs by more than the
    /// limit from the last one of this purpose that was carried out; and while a proof that is required is lacking.
    /// </summary>
    /// <param name="ask">The ask.</param>
    /// <param name="state">The fixture, with a revision in force.</param>
    /// <param name="shiftBase">The shift in base, in metres.</param>
    public static bool Is(LocateAsk ask, FixtureState state, Vector3 shiftBase) => ask.Rules == 1
        ? IsByConfirmation(state, ask.Purpose, shiftBase)
        : (ask.ProvingRequired && state.Unproven.Count > 0)
            || !state.Progress.IsDone(ask.Purpose, ask.Column, ask.Row)
            || state.Progress.Last(ask.Purpose) is not { } done
            || IsFar(state, shiftBase, new(done.X, done.Y, done.Z));

    private static bool IsFar(FixtureState state, Vector3 shiftBase, Vector3 before) =>
        (shiftBase - before).Length > (state.InForce!.Limits.FirstAboveMetres ?? 0);

    /// <summary>By the rules of version 1: a confirmation was enough, for whichever nest.</summary>
    private static bool IsByConfirmation(FixtureState state, Purpose purpose, Vector3 shiftBase) =>
        state.Confirmed(purpose) is not { } confirmed
        || IsFar(state, shiftBase, new(confirmed.X, confirmed.Y, confirmed.Z));
}
