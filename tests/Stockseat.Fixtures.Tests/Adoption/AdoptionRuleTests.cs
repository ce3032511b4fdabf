using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Tests.Adoption;

public sealed class AdoptionRuleTests
{
    private static readonly Dictionary<int, string> None = [];

    // 1, 2 and 4 are good; 3 and 5 are broken.
    private static readonly FixtureFolder Folder = new("pinbed-1", [Good(1), Good(2), Broken(3), Good(4), Broken(5)], []);

    [Theory]
    [InlineData(null)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void A_good_revision_that_is_not_below_the_one_in_force_can_be_adopted(int? inForce)
    {
        var verdict = Judge(Folder, 4, inForce, None);

        Assert.Equal((AdoptionResult.Fit, ""), (verdict.Result, verdict.Message));
        Assert.Same(Folder.Find(4)!.Reading.Revision, verdict.Revision);
    }

    [Fact]
    public void A_revision_that_was_adopted_before_and_reads_the_same_can_be_adopted() =>
        Assert.Equal(AdoptionResult.Fit, Judge(Folder, 2, 2, new Dictionary<int, string> { [1] = "other", [2] = Digest(2) }).Result);

    [Theory]
    [InlineData(6)]
    [InlineData(0)]
    [InlineData(-1)]
    public void A_number_without_a_file_is_unknown(int number) =>
        Same(AdoptionResult.Unknown, $"revision {number} is not in the folder; known are 1, 2, 3, 4, 5", Judge(Folder, number, 1, None));

    [Fact]
    public void In_an_empty_or_missing_folder_every_number_is_unknown()
    {
        const string Message = "revision 1 is not in the folder; it has no revision at all";
        Same(AdoptionResult.Unknown, Message, Judge(null, 1, 1, None));
        Same(AdoptionResult.Unknown, Message, Judge(new("pinbed-1", [], []), 1, null, None));
    }

    [Fact]
    public void A_broken_file_is_faulty_and_all_its_faults_are_reported()
    {
        var faults = Folder.Find(3)!.Reading.Faults;
        Assert.Equal(2, faults.Count);

        Same(AdoptionResult.Faulty, $"revision 3 has 2 faults: {faults[0]}; {faults[1]}", Judge(Folder, 3, null, None));
    }

    [Fact]
    public void A_revision_that_now_reads_differently_is_changed()
    {
        var before = new string('a', 64);
        Same(AdoptionResult.Changed,
            $"revision 4 was adopted with digest aaaaaaaaaaaa and its file now has digest {Digest(4)[..12]}; restore the file, and publish "
                + "the new values as revision 6",
            Judge(Folder, 4, 4, new Dictionary<int, string> { [4] = before }));
    }

    [Fact]
    public void Changed_takes_precedence_over_lower() =>
        Assert.Equal(AdoptionResult.Changed, Judge(Folder, 1, 4, new Dictionary<int, string> { [1] = new string('a', 64) }).Result);

    [Fact]
    public void A_revision_below_the_one_in_force_is_lower() =>
        Same(AdoptionResult.Lower, "revision 2 is below 4, which is in force; publish its values as revision 6", Judge(Folder, 2, 4, None));

    [Fact]
    public void The_number_to_publish_is_above_every_file_and_everything_adopted()
    {
        // Files 6 to 8 were adopted and have been removed since: revision 6 would be refused again.
        var adopted = new Dictionary<int, string> { [6] = "six", [8] = "eight" };

        Assert.EndsWith("publish its values as revision 9", Judge(Folder, 2, 6, adopted).Message, StringComparison.Ordinal);
        Assert.EndsWith("publish its values as revision 8", Judge(Folder, 2, 7, None).Message, StringComparison.Ordinal);
        adopted[4] = new string('a', 64);
        Assert.EndsWith("publish the new values as revision 9", Judge(Folder, 4, 4, adopted).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_first_revision_adopted_is_the_highest_good_one() => Assert.Equal(4, AdoptionRule.First(Folder, FirstAdoption.Automatic)!.Number);

    [Fact]
    public void No_first_revision_is_adopted_when_the_start_is_manual_or_none_is_good()
    {
        Assert.Null(AdoptionRule.First(Folder, FirstAdoption.Manual));
        Assert.Null(AdoptionRule.First(new("pinbed-1", [Broken(3)], []), FirstAdoption.Automatic));
        Assert.Null(AdoptionRule.First(new("pinbed-1", [], []), FirstAdoption.Automatic));
    }

    [Fact]
    public void A_good_revision_above_the_one_in_force_waits()
    {
        Assert.Equal([1, 2, 4], AdoptionRule.Waiting(Folder, null));
        Assert.Equal([2, 4], AdoptionRule.Waiting(Folder, 1));
        Assert.Equal([4], AdoptionRule.Waiting(Folder, 2));
        Assert.Empty(AdoptionRule.Waiting(Folder, 4));
        Assert.Empty(AdoptionRule.Waiting(null, 1));
    }

    [Fact]
    public void The_revision_in_force_is_changed_only_when_its_file_reads_and_reads_differently()
    {
        Assert.False(AdoptionRule.Changed(Folder, 4, Digest(4)));
        Assert.True(AdoptionRule.Changed(Folder, 4, Digest(2)));
        Assert.False(AdoptionRule.Changed(Folder, 3, Digest(4))); // broken: the adopted revision stays in force
        Assert.False(AdoptionRule.Changed(Folder, 6, Digest(4))); // gone
        Assert.False(AdoptionRule.Changed(null, 4, Digest(4)));
    }

    private static RevisionFile Good(int number) =>
        new(number, $"r{number:0000}.json", "", new(Repository.Good(TemporaryFolder.Pins(number)).Prepare(), []));

    private static RevisionFile Broken(int number) =>
        new(number, $"r{number:0000}.json", "", Repository.Read(TemporaryFolder.Pins(number, "NO", "60")));

    private static string Digest(int number) => Folder.Find(number)!.Reading.Revision!.Digest;

    private static void Same(AdoptionResult result, string message, AdoptionVerdict verdict) => Assert.Equal(new(result, null, message), verdict);

    private static AdoptionVerdict Judge(FixtureFolder? folder, int number, int? inForce, IReadOnlyDictionary<int, string> adopted) =>
        AdoptionRule.Judge(folder, number, inForce, adopted, LengthUnit.Millimetre);
}
