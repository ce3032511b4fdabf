using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Adoption;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class FolderTests
{
    [Fact]
    public async Task Changed_folders_take_effect_together_with_the_entries_that_they_need()
    {
        using var ledger = await new Support.Ledger().Begin();
        var was = ledger.Writer.Situation.Find("bed")!.Folder;
        var broken = was! with { Files = [.. was.Files, new(2, "bed/r0002.json", "ab", new(null, ["bed/r0002.json: is no JSON"]))] };
        var told = 0;
        ledger.Writer.FixturesChanged += () => told++;

        await Append(ledger, new("bed", was, broken), new("other", null, ledger.Fixture with { Fixture = "other", Files = [] }));
        Assert.Same(broken, ledger.Writer.Situation.Find("bed")!.Folder);
        Assert.NotNull(ledger.Writer.Situation.Find("other"));
        Assert.Equal(Kinds.RevisionRejected, ledger.Rows()[^1].Kind);

        var serial = ledger.Writer.Serial;
        await Append(ledger, new FolderChange("bed", was, was)); // That folder is not the current one any more.
        Assert.Same(broken, ledger.Writer.Situation.Find("bed")!.Folder);
        Assert.Equal((serial, 2), (ledger.Writer.Serial, told));
    }

    [Fact]
    public async Task An_adoption_that_found_no_folder_withdraws_nothing()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<RefusalBody>(new AdoptAsk(new("bench", null, null), "bed", 2) { By = "setter", Why = "new", Folder = null });

        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
    }

    [Fact]
    public async Task An_adoption_uses_what_was_prepared_before_it_was_asked_for()
    {
        using var ledger = await new Support.Ledger().Begin();
        ledger.Fixture = new("bed", [Support.Ledger.Revision(1), Support.Ledger.Revision(2)], []);
        var prepared = ledger.Fixture.Files[1].Reading.Revision!.Prepared;
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(new("bench", null, null), "bed", 2) { By = "setter", Why = "new", Folder = ledger.Fixture });

        Assert.Same(prepared, ledger.Writer.Situation.Find("bed")!.InForce!.Prepared);
    }

    [Fact]
    public async Task Only_changes_to_whether_a_fixture_answers_are_announced()
    {
        using var ledger = await new Support.Ledger().Begin();
        var told = 0;
        ledger.Writer.FixturesChanged += () => told++;
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        Assert.Equal(0, told);

        await ledger.Do<HeldBody>(new HoldAsk(new("bench", null, null), "bed") { By = "setter", Why = "pins" });
        Assert.Equal(1, told);
        await ledger.Do<ReleasedBody>(new ReleaseAsk(new("bench", null, null), "bed") { By = "setter", Of = "setter", Why = "done" });
        Assert.Equal(2, told);
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(new("bench", null, null), "bed", 1) { By = "setter", Why = "again", Folder = ledger.Fixture });
        Assert.Equal(3, told);
    }

    private static async Task Append(Support.Ledger ledger, params FolderChange[] changes) =>
        Assert.Null((await Support.Ledger.Soon(ledger.Writer.Append(s => Adopting.OfFolders(s, FirstAdoption.Automatic), changes))).Refusal);
}
