using System.Text;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Reading;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Tests.Reading;

/// <summary>Faults are for people to read: the first fifty are listed, the rest are counted, and none is longer than a few lines.</summary>
public sealed class FaultsTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(50)]
    public void Up_to_fifty_are_kept_as_they_are(int count)
    {
        var faults = With(count);

        Assert.Equal(count, faults.Count);
        Assert.Equal(Enumerable.Range(0, count).Select(i => $"f.json: key{i}: is wrong"), faults.All);
    }

    [Theory]
    [InlineData(51, "f.json: and 1 more fault")]
    [InlineData(1284, "f.json: and 1234 more faults")]
    public void The_faults_beyond_fifty_are_counted(int count, string last)
    {
        var faults = With(count);

        Assert.Equal(count, faults.Count);
        Assert.Equal(["f.json: key49: is wrong", last], faults.All.TakeLast(2));
        Assert.Equal(51, faults.All.Count);
    }

    [Fact]
    public void A_long_fault_is_cut_and_no_character_is_split()
    {
        var faults = new Faults("f.json");
        faults.Add(string.Concat(Enumerable.Repeat("🔧", 5000)), "is \"" + string.Concat(Enumerable.Repeat("🔧", 5000)) + "\"; a length was expected");

        var text = Assert.Single(faults.All);
        Assert.InRange(text.Length, 600, 700);
        Assert.DoesNotContain('\uFFFD', Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)));
        Assert.Contains("🔧…: is", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_revision_full_of_faults_is_reported_in_a_few_kilobytes()
    {
        var bytes = Encoding.UTF8.GetBytes($"{{ {string.Join(", ", Enumerable.Range(0, 60_000).Select(i => $"\"k{i}\": 1"))} }}");
        var reading = RevisionReader.Read(bytes, "bed/r0001.json", "bed", 1);

        Assert.Equal(51, reading.Faults.Count);
        Assert.Equal($"bed/r0001.json: and {reading.FaultCount - 50} more faults", reading.Faults[50]);
        Assert.InRange(reading.FaultCount, 60_000, 60_050);
        Assert.InRange(reading.Faults.Sum(f => f.Length), 1_000, 40_000);

        var folder = new FixtureFolder("bed", [new(1, "bed/r0001.json", "ab", reading)], []);
        var verdict = AdoptionRule.Judge(folder, 1, null, new Dictionary<int, string>(), LengthUnit.Millimetre);
        Assert.StartsWith($"revision 1 has {reading.FaultCount} faults: bed/r0001.json: ", verdict.Message, StringComparison.Ordinal);
        Assert.EndsWith(" more faults; stockseat fixture check bed 1 lists them", verdict.Message, StringComparison.Ordinal);
        Assert.InRange(verdict.Message.Length, 1_000, 2_500);
    }

    [Fact]
    public void A_folder_full_of_faults_is_reported_with_fifty()
    {
        using var folder = new TemporaryFolder();
        foreach (var number in Enumerable.Range(1, 60))
        {
            folder.Write($"pinbed-1/r{number:0000}.json", "{");
            folder.Write($"pinbed-1/x{number}.json", "");
        }

        var read = FixtureFolder.Read(folder.Path, "pinbed-1")!;
        Assert.Equal((51, 60), (read.Faults.Count, read.Files.Count));
        Assert.EndsWith("pinbed-1: and 10 more faults", read.Faults[50], StringComparison.Ordinal);
        Assert.Equal(51, read.AllFaults.Count());
        Assert.Equal("pinbed-1: and 61 more faults", read.AllFaults.Last());
    }

    private static Faults With(int count)
    {
        var faults = new Faults("f.json");
        for (var i = 0; i < count; i++)
        {
            faults.Add($"key{i}", "is wrong");
        }

        return faults;
    }
}
