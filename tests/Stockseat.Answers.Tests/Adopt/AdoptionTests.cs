using System.Text;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Adopt;

public sealed class AdoptionTests
{
    [Fact]
    public void At_a_first_start_the_highest_valid_revision_is_adopted_with_its_content()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good(1), Revisions.Good(2), Revisions.Broken(3)));

        var adopted = Assert.Single(bench.OfFolders().OfType<RevisionAdoptedBody>());

        Assert.Equal((2, true, "stockseat", "pinbed-1"), (adopted.Revision, adopted.Automatic, adopted.By, adopted.Fixture));
        Assert.Equal(adopted.Digest, RevisionReader.FromContent(Encoding.UTF8.GetBytes(adopted.Content.GetRawText()), "entry").Revision!.Digest);
        Assert.Equal(2, bench.Locate(0.08).Revision);
    }

    [Fact]
    public void A_manual_start_adopts_nothing()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good(1)));

        Assert.Empty(bench.OfFolders(FirstAdoption.Manual));
        Assert.Null(bench.Situation.Find("pinbed-1")!.InForce);
    }

    [Fact]
    public void A_later_start_does_not_adopt_a_higher_revision_by_itself()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Good(2)));
        bench.Restart();

        Assert.Empty(bench.OfFolders());
        Assert.Equal([2], bench.Situation.Find("pinbed-1")!.Waiting);
        Assert.Equal(1, bench.Locate(0.08).Revision);
    }

    [Fact]
    public void A_broken_file_is_recorded_once_across_restarts_and_again_when_it_changes()
    {
        var bench = Bench.Serving(Revisions.Good(1), Revisions.Broken(2));
        var rejected = Assert.Single(bench.Entries.OfType<RevisionRejectedBody>());
        Assert.Equal((2, Revisions.Broken(2).FileHash), (rejected.Revision, rejected.File));
        Assert.NotEmpty(rejected.Faults);

        bench.Restart();
        Assert.Empty(bench.OfFolders());

        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Broken(2, "y")));
        Assert.Equal(Revisions.Broken(2, "y").FileHash, Assert.IsType<RevisionRejectedBody>(Assert.Single(bench.OfFolders())).File);
        Assert.Empty(bench.OfFolders());
        Assert.Equal(1, bench.Locate(0.08).Revision);
    }

    [Fact]
    public void A_changed_file_is_recorded_as_rejected_with_both_digests()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        var changed = Revisions.Good(1, limits: """{ "shift": "1 mm" }""");
        bench.ReadFolders(Revisions.Folder(changed));

        var fault = Assert.Single(Assert.IsType<RevisionRejectedBody>(Assert.Single(bench.OfFolders())).Faults);

        Assert.Contains(changed.Reading.Revision!.Digest, fault, StringComparison.Ordinal);
        Assert.Contains(Revisions.Good(1).Reading.Revision!.Digest, fault, StringComparison.Ordinal);
    }

    [Fact]
    public void Broken_files_below_the_revision_in_force_are_not_recorded()
    {
        var bench = Bench.Serving(Revisions.Good(2));
        bench.ReadFolders(Revisions.Folder(Revisions.Broken(1), Revisions.Good(2)));

        Assert.Empty(bench.OfFolders());
    }

    [Fact]
    public void Somebody_adopts_a_waiting_revision()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Good(2)));

        var body = Assert.IsType<RevisionAdoptedBody>(bench.Adopt(2));

        Assert.Equal((2, false, "setter", "bed moved", "bench", "17"), (body.Revision, body.Automatic, body.By, body.Why, body.Client, body.Tag));
        Assert.Equal(2, bench.Locate(0.08).Revision);
        bench.Restart();
        Assert.Equal(2, bench.Locate(0.08).Revision);
    }

    [Fact]
    public void A_revision_that_cannot_be_adopted_is_refused_and_nothing_changes()
    {
        var bench = Bench.Serving(Revisions.Good(2));
        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Good(2, limits: """{ "shift": "1 mm" }"""), Revisions.Broken(3)));

        Assert.Equal("revision-unknown", Assert.IsType<RefusalBody>(bench.Adopt(9)).Reason);
        Assert.Equal("calibration-unusable", Assert.IsType<RefusalBody>(bench.Adopt(3)).Reason);
        Assert.Equal("revision-changed", Assert.IsType<RefusalBody>(bench.Adopt(2)).Reason);
        Assert.Equal("value-malformed", Assert.IsType<RefusalBody>(bench.Adopt(1)).Reason);
        Assert.Equal(2, bench.Situation.Find("pinbed-1")!.InForce!.Number);
    }

    [Fact]
    public void A_file_that_changed_after_it_was_checked_is_not_adopted_by_its_digest()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        var looked = Revisions.Good(2).Reading.Revision!.Digest;
        var changed = Revisions.Folder(Revisions.Good(1), Revisions.Good(2, limits: """{ "shift": "1 mm" }"""));
        var now = changed.Find(2)!.Reading.Revision!.Digest;
        bench.ReadFolders(changed);
        var ask = new AdoptAsk(Bench.Controller, "pinbed-1", 2) { By = "setter", Why = "moved", Folder = changed, Digest = looked[..16] };

        var refusal = bench.Refused(Reason.RevisionChanged, ask);

        Assert.Equal((2, looked[..16]), (refusal.Adopts, refusal.AdoptsDigest));
        Assert.Equal((looked[..16], now), (refusal.Limits!["asked_digest"], refusal.Limits["file_digest"]));
        Assert.Contains(looked[..16], refusal.Text, StringComparison.Ordinal);
        Assert.Contains(now[..16], refusal.Text, StringComparison.Ordinal);
        Assert.Contains("stockseat fixture check pinbed-1 2", refusal.Text, StringComparison.Ordinal);
        Assert.Equal(1, bench.Situation.Find("pinbed-1")!.InForce!.Number);
        Assert.Equal(now, Assert.IsType<RevisionAdoptedBody>(bench.Do(ask with { Digest = now[..12] })).Digest);
    }

    [Fact]
    public void Two_digests_that_differ_late_are_shown_up_to_where_they_differ()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        var digest = Revisions.Good(2).Reading.Revision!.Digest;
        var other = digest[..39] + (digest[39] == '0' ? '1' : '0');
        var folder = Revisions.Folder(Revisions.Good(1), Revisions.Good(2));

        var refusal = bench.Refused(Reason.RevisionChanged,
            new AdoptAsk(Bench.Controller, "pinbed-1", 2) { By = "s", Why = "w", Folder = folder, Digest = other });

        Assert.Contains(digest[..40], refusal.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_or_withdrawn_fixture_is_not_adopted()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        bench.ReadFolders();

        Assert.Equal("revision-unknown", Assert.IsType<RefusalBody>(bench.Adopt(1)).Reason);
        bench.Refused(Reason.FixtureUnknown, new AdoptAsk(Bench.Controller, "pinbed-9", 1) { By = "setter", Why = "new", Folder = null });
    }

    [Fact]
    public void Content_that_does_not_read_back_to_its_digest_is_never_applied()
    {
        var adopted = Assert.IsType<RevisionAdoptedBody>(Assert.Single(Bench.Serving(Revisions.Good(1)).Entries));

        Assert.Throws<InvalidDataException>(() => Situation.Empty.Apply(adopted with { Digest = new string('a', 64) }));
    }
}
