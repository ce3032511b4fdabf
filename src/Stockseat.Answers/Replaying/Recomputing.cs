using System.Text.Json;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Replaying;

/// <summary>Decides entries again, from the ask in their bodies and from the situation before them: pure, and with the code that serves.</summary>
public static class Recomputing
{
    /// <summary>Whether an entry follows from its inputs. The others record what nobody decided, such as a start.</summary>
    public static bool Follows(EntryBody body) => body is RefusalBody || RegisteredVerbs.Table.VerbOfKind(body.Kind)?.IsAskedFor(body) == true;

    /// <summary>Decides an entry again.</summary>
    /// <param name="recorded">The entry.</param>
    /// <param name="serial">Its serial, from its place in the ledger.</param>
    /// <param name="then">The situation right before it, from <see cref="SituationThen"/>.</param>
    /// <param name="given">Whether the state of the folders was taken from its outcome.</param>
    /// <param name="find">Finds answers.</param>
    /// <param name="read">Reads the revision that an entry adopts.</param>
    public static Recomputed Again(
        EntryBody recorded, long serial, Situation then, bool given, AnswerFinder find, Func<IAdoption, Revision?> read)
    {
        if (then.Find(recorded.Fixture ?? "") is { Unread: { } unread } && RestsOnRevision(recorded))
        {
            return Recomputed.Not($"it depends on the revision of entry {unread}, whose values do not give its digest");
        }

        var again = recorded switch
        {
            RevisionAdoptedBody b => Adopted(b, read),
            RefusalBody b => Refused(b, then, given, find),
            ConfirmationBody b => Confirmed(b, then, find),
            DoneBody b => Referring(b, b.Answer, then, find),
            DroppedBody b => Referring(b, b.Answer, then, find),
            _ => RegisteredVerbs.Table.AskOf(recorded) is { } ask ? Recomputed.Of(Decide(ask, recorded, then, None)) : NotWhole,
        };
        if (again.Body is { } body)
        {
            (body.Version, body.Serial, body.At) = (recorded.Version, serial, recorded.At);
        }

        return again;
    }

    private static Recomputed NotWhole { get; } = Recomputed.Not("its body does not hold all of its inputs");

    private static bool RestsOnRevision(EntryBody body) => body is RefusalBody refusal
        ? refusal.Number == (int)Reason.AnswerSuperseded
            || (refusal.Revision is not null && RegisteredVerbs.Table.Find(refusal.Asked)?.RefusalNamesRevisionInForce == true)
        : RegisteredVerbs.Table.VerbOfKind(body.Kind)?.RestsOnRevision == true;

    private static EntryBody Decide(Ask ask, EntryBody recorded, Situation then, Func<long, EntryBody?> find) =>
        Decision.Decide(ask, then, EntryTime.Parse(recorded.At), find);

    private static EntryBody? None(long serial) => null;

    /// <summary>The file was in the folder, which no ledger holds; it can only be checked that the content gives its digest.</summary>
    private static Recomputed Adopted(RevisionAdoptedBody recorded, Func<IAdoption, Revision?> read)
    {
        if (read(recorded) is not { } revision)
        {
            return Recomputed.Not($"its content does not give its digest, {recorded.Digest}");
        }

        using var content = JsonDocument.Parse(revision.Content);
        var body = new RevisionAdoptedBody
        {
            Fixture = revision.Fixture,
            Revision = revision.Number,
            Digest = revision.Digest,
            By = recorded.By,
            Why = recorded.Why,
            Automatic = recorded.Automatic,
            Content = content.RootElement.Clone(),
        };
        return Recomputed.Of(By(body, recorded));
    }

    private static Recomputed Confirmed(ConfirmationBody recorded, Situation then, AnswerFinder find)
    {
        var again = Referring(recorded, recorded.Confirms, then, find);
        // Older versions did not record the confirmed shift of the other purpose.
        return again.Body is ConfirmationBody c && recorded.Other is null ? again with { Body = c with { Other = null } } : again;
    }

    /// <summary>An entry about an answer; where the ledger of the answer is away, the entry is taken as it is.</summary>
    private static Recomputed Referring(EntryBody recorded, long serial, Situation then, AnswerFinder find)
    {
        var answer = find(serial, out var isAway);
        return isAway ? Recomputed.Of(recorded with { }, given: true)
            : Recomputed.Of(Decide(RegisteredVerbs.Table.AskOf(recorded)!, recorded, then, _ => answer));
    }

    private static Recomputed Refused(RefusalBody recorded, Situation then, bool given, AnswerFinder find)
    {
        if (IsRetry(recorded) || recorded.Undecided == true)
        {
            return Recomputed.Of(recorded with { }, given: true); // It holds nothing of the ask, or nobody decided it.
        }

        if (RegisteredVerbs.Table.AskOf(recorded) is not { } ask)
        {
            return NotWhole;
        }

        given |= recorded.Number is (int)Reason.NotPermitted or (int)Reason.GaugeUnknown || ask is DescribeLotAsk { Configured: true };
        if (ask is AdoptAsk { Denied: null } && recorded.Number != (int)Reason.FixtureUnknown)
        {
            var refused = ask.Refuse(recorded.Refusal, then.Find(ask.Fixture));
            refused = refused with { Adopts = recorded.Adopts, AdoptsDigest = recorded.AdoptsDigest };
            return Recomputed.Of(By(refused, recorded), given: true);
        }

        EntryBody? answer = null;
        if (ask is AnswerAsk { Denied: null } refers)
        {
            answer = find(refers.Serial, out var isAway);
            var wasAway = recorded.Number == (int)Reason.SerialUnknown && refers.Serial < then.Begins;
            if (isAway && !wasAway)
            {
                return Recomputed.Of(recorded with { }, given: true);
            }

            (answer, given) = wasAway ? (null, true) : (answer, given);
        }

        var again = Decide(ask, recorded, then, _ => answer);
        // The text names the revisions that waited.
        return Recomputed.Of(
            again is RefusalBody { Number: (int)Reason.CalibrationUnusable, Revision: null } r && r.Number == recorded.Number
                ? r with { Text = recorded.Text } : again, given);
    }

    /// <summary>Whether it was refused because its request id belongs to another ask; older versions say so only in the text.</summary>
    private static bool IsRetry(RefusalBody b) => b.Number == (int)Reason.ValueMalformed
        && (b.RetryOf is not null || (b.Text.StartsWith("request id ", StringComparison.Ordinal) && b.Text.Contains(" belongs to ", StringComparison.Ordinal)));

    private static EntryBody By(EntryBody body, EntryBody recorded)
    {
        Caller.Of(recorded).WriteTo(body);
        return body;
    }
}
