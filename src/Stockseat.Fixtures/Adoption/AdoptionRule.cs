using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Adoption;

/// <summary>The rule by which revisions come into force: what is served never changes unless somebody said so.</summary>
public static class AdoptionRule
{
    /// <summary>Judges a request to adopt a number.</summary>
    /// <param name="folder">The fixture's folder as it was just read; null when it is gone.</param>
    /// <param name="number">The number that is requested.</param>
    /// <param name="inForce">The number in force; null when there is none.</param>
    /// <param name="adopted">Every number that was ever adopted, with its digest.</param>
    /// <param name="unit">The unit of the lengths in its words.</param>
    public static AdoptionVerdict Judge(FixtureFolder? folder, int number, int? inForce, IReadOnlyDictionary<int, string> adopted,
        LengthUnit unit)
    {
        if (folder?.NotRead is { } fault)
        {
            return new(AdoptionResult.Faulty, null, $"{fault}; then adopt revision {number}");
        }

        if (folder?.Find(number) is not { } file)
        {
            var known = folder is { Files.Count: > 0 }
                ? $"known are {string.Join(", ", folder.Files.Select(f => f.Number))}"
                : "it has no revision at all";
            return new(AdoptionResult.Unknown, null, $"revision {number} is not in the folder; {known}");
        }

        if (file.Reading.Revision is not { } revision)
        {
            var reading = file.Reading;
            return new(AdoptionResult.Faulty, null,
                $"revision {number} has {reading.FaultCount} fault{(reading.FaultCount == 1 ? "" : "s")}: {reading.FaultsInLine(folder.Fixture, number)}");
        }

        if (EnvelopeFaults.Of(revision, unit).ToArray() is { Length: > 0 } unfit)
        {
            return new(AdoptionResult.Faulty, null, $"revision {number}: {string.Join("; ", unfit)}");
        }

        if (adopted.TryGetValue(number, out var digest) && digest != revision.Digest)
        {
            return new(AdoptionResult.Changed, null,
                $"revision {number} was adopted with digest {digest[..12]} and its file now has digest {revision.Digest[..12]}; restore the "
                    + $"file, and publish the new values as revision {Next(folder, inForce, adopted)}");
        }

        return number < inForce
            ? new(
                AdoptionResult.Lower, null,
                $"revision {number} is below {inForce}, which is in force; publish its values as revision {Next(folder, inForce, adopted)}")
            : new(AdoptionResult.Fit, revision, "");
    }

    /// <summary>The revision that comes into force at once for a fixture that the ledger has never seen; null when none may.</summary>
    public static Revision? First(FixtureFolder folder, FirstAdoption rule) => rule == FirstAdoption.Automatic
        ? folder.Files.Select(f => f.Reading.Revision).OfType<Revision>().LastOrDefault(r => !EnvelopeFaults.Of(r, LengthUnit.Millimetre).Any())
        : null;

    /// <summary>The valid numbers above the one in force: they wait, visibly, until somebody adopts one.</summary>
    public static IEnumerable<int> Waiting(FixtureFolder? folder, int? inForce) =>
        folder is null ? [] : folder.Files.Where(f => f.Reading.Revision is not null && !(f.Number <= inForce)).Select(f => f.Number);

    /// <summary>
    /// Whether the file of the revision in force now has other values. Neither set of values can be trusted then, until somebody says which one is right.
    /// </summary>
    public static bool Changed(FixtureFolder? folder, int inForce, string digest) =>
        folder?.Find(inForce)?.Reading.Revision is { } revision && revision.Digest != digest;

    /// <summary>The standing of a revision that has a file or was adopted once.</summary>
    /// <param name="file">Its file; null when there is none.</param>
    /// <param name="number">The number.</param>
    /// <param name="inForce">The number in force; null when there is none.</param>
    /// <param name="adopted">Every number that was ever adopted, with its digest.</param>
    public static RevisionStanding Standing(RevisionFile? file, int number, int? inForce, IReadOnlyDictionary<int, string> adopted)
    {
        var known = adopted.TryGetValue(number, out var digest);
        if (known && file?.Reading.Revision is { } read && read.Digest != digest)
        {
            return RevisionStanding.Changed;
        }

        if (number == inForce)
        {
            return RevisionStanding.InForce; // also when its file is broken or gone
        }

        return file is { Reading.Revision: null } ? RevisionStanding.Faulty
            : known ? RevisionStanding.AdoptedBefore
            : number < inForce ? RevisionStanding.Older
            : RevisionStanding.Waiting;
    }

    /// <summary>
    /// A number above every file, and above every number that was adopted from a file that has gone since: a lower number would be refused again.
    /// </summary>
    private static int Next(FixtureFolder folder, int? inForce, IReadOnlyDictionary<int, string> adopted) =>
        adopted.Keys.Append(folder.Files[^1].Number).Append(inForce ?? 0).Max() + 1;
}
