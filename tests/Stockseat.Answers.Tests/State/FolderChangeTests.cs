using Stockseat.Answers.Adopt;
using Stockseat.Answers.Events;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.State;

public class FolderChangeTests
{
    [Fact]
    public void Changes_apply_all_at_once_and_leave_the_other_fixtures_as_they_are()
    {
        var (one, other, newer) = (Revisions.Folder(Revisions.Good(1)), Revisions.Folder(Revisions.Good(1), Revisions.Good(2)),
            Revisions.Folder(Revisions.Good(3)));
        var before = Situation.Empty.WithFolders([one]);

        Assert.Same(other, before.WithChanges([new("pinbed-1", one, other)]).Find("pinbed-1")!.Folder);
        Assert.Same(one, before.WithChanges([new("pinbed-1", null, other)]).Find("pinbed-1")!.Folder);
        Assert.Same(newer, before.WithFolder(newer).WithChanges([new("pinbed-1", one, other)]).Find("pinbed-1")!.Folder);
        Assert.Same(before, before.WithChanges([]));
    }

    [Fact]
    public void A_fixture_without_folder_is_withdrawn_when_the_ledger_knows_it_and_otherwise_forgotten()
    {
        var folder = Revisions.Folder(Revisions.Good(1));
        var bench = new Bench(folder);
        Assert.Null(bench.Situation.WithChanges([new("pinbed-1", folder, null)]).Find("pinbed-1"));

        bench.OfFolders();
        Assert.Equal(Reason.FixtureWithdrawn, bench.Situation.WithChanges([new("pinbed-1", folder, null)]).Find("pinbed-1")!.Refused!.Reason);
    }

    [Fact]
    public void Entries_that_a_folder_needs_are_asked_for_once()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good(1), Revisions.Broken(2)));
        Assert.Equal([typeof(RevisionRejectedBody), typeof(RevisionAdoptedBody)], bench.OfFolders().Select(b => b.GetType()));
        Assert.Empty(bench.OfFolders());

        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Broken(2, "other")));
        Assert.Single(bench.OfFolders());
        Assert.Empty(bench.OfFolders());
    }

    [Fact]
    public void An_adoption_uses_what_was_prepared_for_the_file()
    {
        var file = Revisions.Good(1);
        var bench = new Bench(Revisions.Folder(file));
        bench.OfFolders();

        Assert.NotSame(file.Reading.Revision, bench.Situation.Find("pinbed-1")!.InForce);
        Assert.Same(file.Reading.Revision!.Prepared, bench.Situation.Find("pinbed-1")!.InForce!.Prepared);
    }
}
