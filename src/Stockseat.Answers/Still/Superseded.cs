using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Still;

/// <summary>Why an answer may no longer be used.</summary>
internal static class Superseded
{
    /// <summary>The limit that names what came between: the name of a reason, or of a kind of entry.</summary>
    public const string What = "by";

    /// <summary>What <see cref="What"/> says of a fixture that is not there any more.</summary>
    public const string Gone = "fixture";

    /// <summary>Why not; null while it may.</summary>
    public static Refusal? By(AnswerBody answer, FixtureState? state, StepBack? stepBack, DateTimeOffset at)
    {
        if (state is null)
        {
            return Because(answer, Gone, 0, "its fixture is gone");
        }

        return state.AdoptedBy > answer.Serial ? Because(answer, "adoption", state.AdoptedBy, $"revision {state.InForce?.Number} came into force")
            : state.Progress.Since > answer.Serial ? Because(answer, "recheck", state.Progress.Since, "a recheck missed")
            : state.Refused is { } refused ? Because(answer, refused.Info.Name, 0, refused.Text)
            : Measured(answer, state, stepBack, at) ?? Later(answer, state);
    }

    private static Refusal? Measured(AnswerBody answer, FixtureState state, StepBack? stepBack, DateTimeOffset at)
    {
        if (answer.Measurement is not { } serial)
        {
            return state.Cleared > answer.Serial
                    ? Because(answer, "emptied", state.Cleared, "the nests were emptied or refilled, or the fixture was held")
                : PurposeNames.Find(answer.Purpose) == Purpose.Pick && state.Measurement is { } newer && newer.Serial > answer.Serial
                    ? Because(answer, "measurement", newer.Serial, "something was measured since, and it was for a stated diameter")
                : null;
        }

        if (state.Measurement is not { } measurement)
        {
            return Because(answer, "measurement", 0, state.NoMeasurement);
        }

        var age = at - measurement.At;
        return measurement.Serial != serial ? Because(answer, "measurement", measurement.Serial, "something else was measured")
            : measurement.Serial < stepBack?.Serial
                ? Because(answer, "clock", stepBack.Serial, "the clock was set back, so nobody knows how old its measurement is")
            : age > measurement.FreshFor
                ? Because(answer, "age", serial, $"its measurement is {Seconds(age)} s old; at most {Seconds(measurement.FreshFor)} s is fresh")
            : null;
    }

    private static Refusal? Later(AnswerBody answer, FixtureState state) =>
        state.Served.Last(PurposeNames.Find(answer.Purpose) ?? Purpose.Pick) is var last && last > answer.Serial
            ? Because(answer, "answer", last, $"a later answer for a {answer.Purpose} was served")
            : null;

    private static Refusal Because(AnswerBody answer, string what, long serial, string said)
    {
        var (number, entry) = (answer.Serial.ToString(CultureInfo.InvariantCulture), serial.ToString(CultureInfo.InvariantCulture));
        return serial > 0
            ? Refusal.Of(Reason.AnswerSuperseded, $"answer {number} may no longer be used: {said} (entry {entry})", (What, what), ("serial", entry))
            : Refusal.Of(Reason.AnswerSuperseded, $"answer {number} may no longer be used: {said}", (What, what));
    }

    private static string Seconds(TimeSpan span) => span.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture);
}
