using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.State;

/// <summary>Why a fixture answers no ask at all.</summary>
internal static class Unserved
{
    /// <summary>How many holders a refusal names: the text has to fit a line and a status.</summary>
    private const int Named = 3;

    /// <summary>Why it answers nothing now; null when it answers.</summary>
    public static Refusal? Judge(FixtureState state) => Withdrawn(state) ?? Held(state) ?? Uncalibrated(state) ?? Missed(state);

    /// <summary>The same, by its folder and its revision only.</summary>
    public static Refusal? OfFolder(FixtureState state) => Withdrawn(state) ?? Uncalibrated(state);

    /// <summary>The refusal when nobody said what stands in the nests.</summary>
    public static Refusal NoLoad(string fixture) => Refusal.Of(Reason.LoadMissing, $"nobody has said what stands in the nests of {fixture}");

    /// <summary>The refusal of a fixture that neither the ledger nor a folder knows.</summary>
    public static Refusal Unknown(string fixture) => Refusal.Of(Reason.FixtureUnknown, $"there is no fixture {fixture}");

    /// <summary>Why there is no such fixture; null when there is one.</summary>
    public static Refusal? Absent(string fixture, FixtureState? state) => state is null ? Unknown(fixture) : Withdrawn(state);

    /// <summary>Why no revision of a fixture can be used; null when the one in force can.</summary>
    public static Refusal? Uncalibrated(FixtureState state)
    {
        var fixture = state.Fixture;
        if (state.InForce is not { } revision)
        {
            var waiting = string.Join(", ", state.Waiting);
            return new(Reason.CalibrationUnusable, waiting.Length > 0
                ? $"no revision of {fixture} is in force: revision {waiting} waits to be adopted; "
                    + $"adopt it with stockseat fixture adopt {fixture} {waiting.Split(", ")[^1]} --by WHO --why WHY"
                : $"no revision of {fixture} is in force: none of its files is valid; {ReasonInfo.Of(Reason.CalibrationUnusable).Advice}");
        }

        return state.Changed
            ? Refusal.Of(Reason.RevisionChanged, $"the file of revision {revision.Number} of {fixture}, which is in force, now has other values")
            : revision.IsPrepared ? Fit.Unusable(revision) : null; // A revision that is not prepared is not used for decisions yet.
    }

    /// <summary>Who holds a fixture, and why, in words.</summary>
    public static string Holders(FixtureState state)
    {
        var said = state.Holds.Values.OrderBy(h => h.Serial).Take(Named)
            .Select(h => $"by {Shown(h.By)} since entry {Whole(h.Serial)} ({Shown(h.Why)})");
        return string.Join(", ", said) + (state.Holds.Count > Named ? $" and by {Whole(state.Holds.Count - Named)} more" : "");
    }

    private static Refusal? Withdrawn(FixtureState state) =>
        state.Folder is null ? Refusal.Of(Reason.FixtureWithdrawn, $"the folder of fixture {state.Fixture} is gone") : null;

    private static Refusal? Held(FixtureState state)
    {
        if (state.Holds.IsEmpty)
        {
            return null;
        }

        var first = state.Holds.Values.MinBy(h => h.Serial)!;
        return Refusal.Of(
            Reason.FixtureHeld, $"{state.Fixture} is held {Holders(state)}",
            ("holds", Whole(state.Holds.Count)), ("held_by", Refusal.Cut(first.By)), ("since_serial", Whole(first.Serial)));
    }

    private static Refusal? Missed(FixtureState state) => state.Missed is { Refuses: true } miss
        ? Refusal.Of(Reason.RecheckFailed, miss.Said, ("serial", Whole(miss.Serial)), ("miss_metres", LengthText.Metres(miss.LengthMetres)))
        : null;

    /// <summary>A text for a refusal, without the sign by which a controller's parser finds a coordinate.</summary>
    private static string Shown(string text) => Refusal.Cut(text).Replace('=', '?');

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
