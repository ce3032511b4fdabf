using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Examining;

/// <summary>Whether each fixture has a revision that answers come from.</summary>
internal static class FixtureCheck
{
    public static IEnumerable<Finding> Look(Examined examined)
    {
        var root = examined.Settings.Fixtures.Folder;
        if (!Directory.Exists(root))
        {
            return [Finding.Fault("fixtures", $"there is no folder {root}; make it, with a folder for each fixture, or correct Fixtures in the configuration")];
        }

        var folders = new BoundedFolders(new FoldersOnDisk(root), new(), TimeProvider.System);
        var (read, notListed) = folders.ReadAll([], CancellationToken.None).GetAwaiter().GetResult();
        if (notListed is not null)
        {
            return [Finding.Fault("fixtures", $"{root} can't be listed: {notListed}")];
        }

        var situation = Known(examined.Settings.Ledger.Data);
        return read.Count == 0
            ? [Finding.Fault("fixtures", $"{root} has no folder of a fixture; put one there (README.md shows how to make one)")]
            : read.SelectMany(f => Of(f, situation?.Find(f.Fixture)));
    }

    private static IEnumerable<Finding> Of(FixtureFolder folder, FixtureState? state)
    {
        var about = $"fixture {folder.Fixture}";
        var faults = folder.AllFaults.ToList();
        foreach (var fault in faults)
        {
            yield return Finding.Fault(about, fault);
        }

        var judged = (state ?? new(folder.Fixture)) with { Folder = folder };
        if (judged.InForce is not { } revision)
        {
            yield return Finding.Advice(about, "no revision was ever adopted here, so nothing is served; the first start adopts one where FirstAdoption is "
                + $"\"automatic\", otherwise: stockseat fixture adopt {folder.Fixture}");
        }
        else if (judged.Changed)
        {
            yield return Finding.Fault(about, $"revision {revision.Number} is in effect, and its file now says something else; restore the file, and publish "
                + "the change under the next number");
        }
        else if (faults.Count == 0)
        {
            yield return Finding.Good(about, $"revision {revision.Number} is in effect");
        }
    }

    /// <summary>What the ledger says of the fixtures; null: there is no ledger yet. A ledger that can't be read is the ledger's finding.</summary>
    private static Situation? Known(string data)
    {
        if (!File.Exists(Path.Combine(data, LedgerFile.Name)))
        {
            return null;
        }

        using var reader = LedgerReader.Open(data);
        return reader.SituationAfter(reader.Last);
    }
}
