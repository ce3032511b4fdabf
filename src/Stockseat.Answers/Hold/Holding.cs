using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Answers.Hold;

/// <summary>Decides holds and releases: while anybody is at a fixture it answers no ask.</summary>
internal static class Holding
{
    /// <summary>How many holders a refusal names, and how much of what each said: it has to fit a line and a status.</summary>
    private const int Named = 3;

    private const int LongestSaid = 80;

    public static EntryBody Decide(HoldAsk ask, Situation situation)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied ?? (state is null ? Decision.Unknown(ask.Fixture) : null);
        return refusal is null
            ? new HeldBody { Fixture = ask.Fixture, By = ask.By, Why = ask.Why }
            : Decision.Refuse(ask, refusal, state) with { By = ask.By, Why = ask.Why };
    }

    public static EntryBody Decide(ReleaseAsk ask, Situation situation)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied ?? (state is null ? Decision.Unknown(ask.Fixture) : NotHeld(ask, state));
        return refusal is null
            ? new ReleasedBody { Fixture = ask.Fixture, By = ask.By, Why = ask.Why, Of = ask.Of, Left = state!.Holds.Count - 1 }
            : Decision.Refuse(ask, refusal, state) with { By = ask.By, Why = ask.Why, Of = ask.Of };
    }

    /// <summary>Why a held fixture answers nothing; null when nobody holds it.</summary>
    public static Refusal? Held(FixtureState state)
    {
        if (state.Holds.IsEmpty)
        {
            return null;
        }

        var first = state.Holds.Values.MinBy(h => h.Serial)!;
        return Refusal.Of(
            Reason.FixtureHeld, $"{state.Fixture} is held {Holders(state)}",
            ("holds", Whole(state.Holds.Count)), ("held_by", Cut(first.By)), ("since_serial", Whole(first.Serial)));
    }

    private static Refusal? NotHeld(ReleaseAsk ask, FixtureState state)
    {
        if (state.Holds.ContainsKey(ask.Of))
        {
            return null;
        }

        return new(Reason.ValueMalformed, state.Holds.IsEmpty
            ? $"{state.Fixture} is not held, so there is no hold of {Cut(ask.Of)} to release; stockseat fixture list shows what is held"
            : $"{state.Fixture} is not held by {Cut(ask.Of)}; it is held {Holders(state)}; name whose hold is released with --of WHO");
    }

    private static string Holders(FixtureState state)
    {
        var said = state.Holds.Values.OrderBy(h => h.Serial).Take(Named).Select(h => $"by {Shown(h.By)} since entry {Whole(h.Serial)} ({Shown(h.Why)})");
        return string.Join(", ", said) + (state.Holds.Count > Named ? $" and by {Whole(state.Holds.Count - Named)} more" : "");
    }

    /// <summary>In a refusal's text, without the sign by which a controller's parser finds a coordinate.</summary>
    private static string Shown(string text) => Cut(text).Replace('=', '?');

    private static string Cut(string text)
    {
        if (text.Length <= LongestSaid)
        {
            return text;
        }

        // Not between the halves of a character.
        var end = char.IsHighSurrogate(text[LongestSaid - 1]) ? LongestSaid - 1 : LongestSaid;
        return text[..end] + "...";
    }

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
