using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Adoption;

namespace Stockseat.Answers.Tests.Hold;

public sealed class HoldTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Good(1));

    [Fact]
    public void A_held_fixture_refuses_asks_and_says_who_holds_it_since_when_and_why()
    {
        var held = Hold("setter");

        var refusal = _bench.Refused(Reason.FixtureHeld, 0.08);

        Assert.Equal(("pinbed-1", "setter", "bed moved", "bench", "17", "r-1"), (held.Fixture, held.By, held.Why, held.Client, held.Tag, held.Request));
        Assert.Contains($"held by setter since entry {held.Serial} (bed moved)", refusal.Text, StringComparison.Ordinal);
        Assert.Equal(("1", "setter", $"{held.Serial}"), (refusal.Limits!["holds"], refusal.Limits["held_by"], refusal.Limits["since_serial"]));
        Assert.Equal(Reason.FixtureHeld, _bench.Situation.Find("pinbed-1")!.Refused!.Reason);
    }

    [Fact]
    public void A_holder_s_reason_never_adds_a_coordinate_to_a_refusal()
    {
        Hold("bx=0.5");

        Assert.Contains("held by bx?0.5 since", _bench.Refused(Reason.FixtureHeld, 0.08).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fixture_answers_again_when_the_last_hold_is_released()
    {
        Hold("setter");
        Hold("maintenance");

        Assert.Equal(1, Release("setter").Left);
        Assert.Contains("held by maintenance", _bench.Refused(Reason.FixtureHeld, 0.08).Text, StringComparison.Ordinal);
        Assert.Equal(0, Release("maintenance").Left);
        Assert.Equal(0.08, _bench.Locate(0.08).Diameter);
    }

    [Fact]
    public void Somebody_else_releases_a_hold_only_by_naming_it()
    {
        Hold("setter");

        var refusal = _bench.Refused(Reason.ValueMalformed, ReleaseAsk("foreman"));
        Assert.Contains("not held by foreman; it is held by setter since entry 2", refusal.Text, StringComparison.Ordinal);
        Assert.Contains("--of WHO", refusal.Text, StringComparison.Ordinal);
        Assert.Equal(("foreman", "foreman"), (refusal.By, refusal.Of));
        _bench.Refused(Reason.FixtureHeld, 0.08);

        var released = Release("foreman", of: "setter");
        Assert.Equal(("foreman", "setter", 0), (released.By, released.Of, released.Left));
        _bench.Locate(0.08);
    }

    [Fact]
    public void Names_that_differ_in_case_are_different_names()
    {
        Hold("Setter");

        _bench.Refused(Reason.ValueMalformed, ReleaseAsk("setter"));
    }

    [Fact]
    public void A_second_hold_by_the_same_name_keeps_the_time_of_the_first()
    {
        var first = Hold("setter");
        var again = Hold("setter", "another reason");

        Assert.NotEqual(first.Serial, again.Serial);
        var hold = Assert.Single(_bench.Situation.Find("pinbed-1")!.Holds.Values);
        Assert.Equal((first.Serial, "bed moved", Bench.Start), (hold.Serial, hold.Why, hold.At));
        Assert.Equal(0, Release("setter").Left);
        _bench.Locate(0.08);
    }

    [Fact]
    public void A_restart_keeps_the_open_holds_and_no_others()
    {
        Hold("setter");
        Hold("maintenance");
        Release("setter");
        _bench.Restart();

        Assert.Equal(["maintenance"], _bench.Situation.Find("pinbed-1")!.Holds.Keys);
        _bench.Refused(Reason.FixtureHeld, 0.08);
        Release("maintenance");
        _bench.Restart();
        _bench.Locate(0.08);
    }

    [Fact]
    public void A_fixture_that_is_not_held_can_not_be_released()
    {
        Assert.Contains("is not held", _bench.Refused(Reason.ValueMalformed, ReleaseAsk("setter")).Text, StringComparison.Ordinal);
        Hold("setter");
        Release("setter");
        _bench.Refused(Reason.ValueMalformed, ReleaseAsk("setter"));
    }

    [Fact]
    public void A_fixture_without_a_revision_in_force_can_be_held_but_an_unknown_one_can_not()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good(1)));
        bench.OfFolders(FirstAdoption.Manual);
        bench.Refused(Reason.CalibrationUnusable, 0.08);

        Assert.IsType<HeldBody>(bench.Do(HoldAsk("setter")));
        bench.Refused(Reason.FixtureHeld, 0.08);
        bench.Restart();
        bench.Refused(Reason.FixtureHeld, 0.08);
        bench.Refused(Reason.FixtureUnknown, HoldAsk("setter", fixture: "pinbed-9"));
        bench.Refused(Reason.FixtureUnknown, ReleaseAsk("setter", fixture: "pinbed-9"));
        Assert.Null(bench.Situation.Find("pinbed-9"));
    }

    [Fact]
    public void A_held_fixture_whose_folder_is_gone_is_refused_as_withdrawn()
    {
        Hold("setter");
        _bench.ReadFolders();

        _bench.Refused(Reason.FixtureWithdrawn, 0.08);
        Release("setter");
    }

    [Fact]
    public void Measurements_adoptions_and_confirmations_still_work()
    {
        var answer = _bench.Locate(0.08);
        _bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Good(2)));
        Hold("setter");

        Assert.IsType<ConfirmationBody>(_bench.Confirm(answer.Serial));
        Assert.IsType<EmptiedBody>(_bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1")));
        var measured = _bench.Measure(0.081);
        Assert.IsType<MeasurementBody>(measured);
        Assert.IsType<RevisionAdoptedBody>(_bench.Adopt(2));
        _bench.Refused(Reason.FixtureHeld);
        Release("setter");
        Assert.Equal(measured.Serial, _bench.Locate().Measurement);
    }

    [Fact]
    public void A_client_without_permission_to_hold_or_release_is_refused_for_that_first()
    {
        var denied = Refusal.Of(Reason.NotPermitted, "no");
        Hold("setter");

        Assert.Equal("setter", _bench.Refused(Reason.NotPermitted, HoldAsk("setter", fixture: "pinbed-9") with { Denied = denied }).By);
        _bench.Refused(Reason.NotPermitted, ReleaseAsk("nobody") with { Denied = denied });
        _bench.Refused(Reason.NotPermitted, ReleaseAsk("setter") with { Denied = denied });
        _bench.Refused(Reason.FixtureHeld, 0.08);
    }

    [Fact]
    public void Other_fixtures_keep_answering()
    {
        var bench = new Bench(Revisions.Folder(Revisions.Good(1)), Revisions.Folder(Revisions.Demo("veerack-2/r0002.json")));
        bench.OfFolders();
        bench.Do(HoldAsk("setter"));

        bench.Locate(0.08, "veerack-2");
    }

    [Fact]
    public void Many_long_holds_still_make_a_short_text()
    {
        for (var i = 0; i < 20; i++)
        {
            _bench.Do(HoldAsk($"{i:00}{new string('n', 398)}", new('w', 400)));
        }

        var refusal = _bench.Refused(Reason.FixtureHeld, 0.08);

        Assert.InRange(refusal.Text.Length, 1, 800);
        Assert.Contains("and by 17 more", refusal.Text, StringComparison.Ordinal);
        Assert.Equal("20", refusal.Limits!["holds"]);
    }

    private static HoldAsk HoldAsk(string by, string why = "bed moved", string fixture = "pinbed-1") => new(Bench.Controller, fixture) { By = by, Why = why };

    private static ReleaseAsk ReleaseAsk(string by, string? of = null, string fixture = "pinbed-1") =>
        new(Bench.Controller, fixture) { By = by, Why = "done", Of = of ?? by };

    private HeldBody Hold(string by, string why = "bed moved") => Assert.IsType<HeldBody>(_bench.Do(HoldAsk(by, why)));

    private ReleasedBody Release(string by, string? of = null) => Assert.IsType<ReleasedBody>(_bench.Do(ReleaseAsk(by, of)));
}
