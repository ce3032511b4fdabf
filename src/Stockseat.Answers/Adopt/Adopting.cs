using System.Globalization;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Adopt;

/// <summary>Decides adoptions, and makes the entries that the state of the folders requires.</summary>
public static class Adopting
{
    internal static EntryBody Decide(AdoptAsk ask, Situation situation)
    {
        if (ask.Denied is { } denied)
        {
            return Refuse(ask, denied);
        }

        var state = situation.Find(ask.Fixture);
        if (state is null && ask.Folder is null)
        {
            return Refuse(ask, Unserved.Unknown(ask.Fixture));
        }

        state ??= new(ask.Fixture);
        if (ask.Expects is { } expected && expected != (state.InForce?.Number ?? 0))
        {
            return Refuse(ask, Meanwhile(ask, expected, state), state);
        }

        AdoptionVerdict Judge(LengthUnit unit) => AdoptionRule.Judge(ask.Folder, ask.Number, state.InForce?.Number, state.Adopted, unit);
        var verdict = Judge(LengthUnit.Millimetre);
        if (verdict.Revision is not { } revision)
        {
            return Refuse(ask, Refusal.Told(Of(verdict.Result), unit => $"{ask.Fixture}: {Judge(unit).Message}"), state);
        }

        return ask.Digest is { } asked && !revision.Digest.StartsWith(asked, StringComparison.Ordinal)
            ? Refuse(ask, Changed(ask, asked, revision.Digest), state)
            : Adopted(revision, ask.By, ask.Why, automatic: false);
    }

    private static RefusalBody Refuse(AdoptAsk ask, Refusal refusal, FixtureState? state = null) =>
        ask.Refuse(refusal, state) with { Adopts = ask.Number, AdoptsDigest = ask.Digest };

    /// <summary>Somebody else has adopted a revision since this one was looked at.</summary>
    private static Refusal Meanwhile(AdoptAsk ask, int expected, FixtureState state) => Refusal.Of(
        Reason.RevisionChangedMeanwhile,
        string.Create(CultureInfo.InvariantCulture,
            $"{(state.InForce is { } now ? $"revision {now.Number}" : "no revision")} of {ask.Fixture} is in force, and ")
            + (expected == 0 ? "none was expected" : string.Create(CultureInfo.InvariantCulture, $"revision {expected} was expected")),
        ("in_force", (state.InForce?.Number ?? 0).ToString(CultureInfo.InvariantCulture)), ("expected", expected.ToString(CultureInfo.InvariantCulture)));

    /// <summary>The file is not the one that somebody looked at before.</summary>
    private static Refusal Changed(AdoptAsk ask, string asked, string read)
    {
        var number = ask.Number.ToString(CultureInfo.InvariantCulture);
        var shown = read[..Math.Max(asked.Length, DigestPrefix.Shown)];
        return new(
            Reason.RevisionChanged,
            $"{ask.Fixture}: the file of revision {number} has the digest {shown}, and {asked} was asked for: the file changed since, or another one is meant; "
            + $"look at it again with stockseat fixture check {ask.Fixture} {number} and adopt with the digest that it prints",
            new Dictionary<string, string> { ["asked_digest"] = asked, ["file_digest"] = read });
    }

    /// <summary>
    /// The entries that the state of the folders requires, at a start and whenever a folder changed: first adoptions, and files that are newly faulty or
    /// changed. Once these entries are applied there are no more.
    /// </summary>
    public static IEnumerable<EntryBody> OfFolders(Situation situation, FirstAdoption rule)
    {
        foreach (var state in situation.Fixtures.Where(f => f.Folder is not null))
        {
            var refused = state.Folder!.Files.LastOrDefault(f => Rejection(state, f) is not null);
            if (refused is not null && refused.FileHash != state.Rejected)
            {
                yield return new RevisionRejectedBody
                {
                    Fixture = state.Fixture,
                    Revision = refused.Number,
                    File = refused.FileHash,
                    Faults = Rejection(state, refused)!,
                };
            }

            if (state.Adopted.IsEmpty && AdoptionRule.First(state.Folder, rule) is { } first)
            {
                yield return Adopted(first, "stockseat", "first adoption, as the configuration says", automatic: true);
            }
        }
    }

    private static IReadOnlyList<string>? Rejection(FixtureState state, RevisionFile file) => file.Reading.Revision switch
    {
        null => file.Number >= (state.InForce?.Number ?? 0) ? file.Reading.Faults : null,
        { } r when state.Adopted.TryGetValue(file.Number, out var digest) && digest != r.Digest =>
            [$"{file.Path}: revision {file.Number} was adopted with digest {digest}, and its file now has digest {r.Digest}; restore the file, and publish "
                + $"the new values under the next number"],
        _ => null,
    };

    private static RevisionAdoptedBody Adopted(Revision revision, string by, string why, bool automatic) => new()
    {
        Fixture = revision.Fixture,
        Revision = revision.Number,
        Digest = revision.Digest,
        By = by,
        Why = why,
        Automatic = automatic,
        Content = JsonDocument.Parse(revision.Content).RootElement,
    };

    private static Reason Of(AdoptionResult result) => result switch
    {
        AdoptionResult.Unknown => Reason.RevisionUnknown,
        AdoptionResult.Faulty => Reason.CalibrationUnusable,
        AdoptionResult.Changed => Reason.RevisionChanged,
        _ => Reason.ValueMalformed,
    };
}
