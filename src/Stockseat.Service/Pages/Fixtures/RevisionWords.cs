using Stockseat.Answers.Advising;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>Revisions in words, as the command line says them.</summary>
public static class RevisionWords
{
    /// <summary>What a revision means in base, in sentences.</summary>
    public static IReadOnlyList<string> Statement(BaseStatement statement, LengthUnit unit) =>
        [.. StatementText.Sentences(statement, unit).Select(s => PrintedNumbers.Printed($"{char.ToUpperInvariant(s[0])}{s[1..]}."))];

    /// <summary>The differences of a revision from the one in force: key, there, here; null when one of them can't be read.</summary>
    public static IReadOnlyList<string[]>? Changes(FixtureState state, int number)
    {
        if (state.InForce is not { } now || now.Number == number || state.Folder?.Find(number)?.Reading is not { Revision: { } other } reading)
        {
            return null;
        }

        // Both as their files write them; where the file of the one in force is not there any more, both in SI units: never one in mm and the other in m.
        var isWritten = state.Folder.Find(now.Number)?.Reading is { } own && own.Revision?.Digest == now.Digest;
        var changes = isWritten
            ? RevisionChanges.Between(state.Folder.Find(now.Number)!.Reading, reading) : RevisionChanges.Between(new(now, []), new(other, []));
        return [.. changes.Select(c => (string[])[c.Key, c.Before ?? "not stated", c.After ?? "not stated"])];
    }

    /// <summary>The revisions of a fixture, the newest first.</summary>
    public static IReadOnlyList<ShownRevision> Of(FixtureState state) => [.. state.Numbers.Reverse().Select(number =>
    {
        var standing = state.Standing(number);
        return new ShownRevision(
            number, Words(standing), Changes(state, number), [.. state.Folder?.Find(number)?.Reading.Faults ?? []], standing == RevisionStanding.Waiting);
    })];

    private static string Words(RevisionStanding standing) => standing switch
    {
        RevisionStanding.InForce => "in force",
        RevisionStanding.AdoptedBefore => "was in force before",
        RevisionStanding.Waiting => "waits to be adopted",
        RevisionStanding.Older => "never adopted, older than the one in force",
        RevisionStanding.Faulty => "its file has faults",
        _ => "its file was changed after it was adopted: restore the file, or publish the new values under the next number",
    };
}
