using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Tests.Adoption;

/// <summary>Revisions that read without faults and still can't be adopted; the fault gives the numbers.</summary>
public sealed class EnvelopeFaultTests
{
    private const string Pins = "pinbed-1/r0003.json";

    public static TheoryData<string> Served =>
        ["pinbed-1/r0001.json", "pinbed-1/r0002.json", "pinbed-1/r0003.json", "rollers-3/r0001.json", "rollers-3/r0002.json", "veerack-2/r0002.json"];

    [Theory]
    [MemberData(nameof(Served))]
    public void The_demos_revisions_have_no_envelope_fault(string demo) =>
        Assert.Empty(EnvelopeFaults.Of(Repository.Good(Repository.Text(demo)).Prepare(), LengthUnit.Millimetre));

    /// <summary>Without heights, the jaw that points into the vee meets the vee's faces.</summary>
    [Fact]
    public void A_jaw_that_meets_a_face_at_the_taught_diameter_is_a_fault() => Assert.StartsWith(
        "its own taught diameter of 69.85 mm does not fit: jaw 2 (closed) to face 1 would overlap by",
        Assert.Single(EnvelopeFaults.Of(Repository.Good(Repository.Text("veerack-2/r0001.json")).Prepare(), LengthUnit.Millimetre)), StringComparison.Ordinal);

    [Theory]
    [InlineData("\"jawWidth\": \"24 mm\"", "\"jawWidth\": \"130 mm\"", "its own taught diameter of 80 mm does not fit: jaw")]
    [InlineData(
        "\"stroke\": [ \"35 mm\", \"116 mm\" ]", "\"stroke\": [ \"35 mm\", \"91 mm\" ]",
        "its own taught diameter of 80 mm does not fit: the gripper's stroke ends at 91 mm")]
    [InlineData("\"stroke\": [ \"35 mm\", \"116 mm\" ]", "\"stroke\": [ \"81 mm\", \"116 mm\" ]", "the gripper's stroke ends at 81 mm")]
    [InlineData("\"pitch\": \"125 mm\"", "\"pitch\": \"81 mm\"", "its own taught diameter of 80 mm does not fit: ")]
    [InlineData(
        "\"diameter\": [ \"60 mm\", \"100 mm\" ]", "\"diameter\": [ \"55 mm\", \"100 mm\" ]",
        "limits.diameter begins at 55 mm, but 57.282 mm is the smallest that the fixture holds: its sensitivity would be above 2; state "
            + "a range that begins there or above")]
    [InlineData(
        "\"diameter\": [ \"60 mm\", \"100 mm\" ]", "\"diameter\": [ \"60 mm\", \"105 mm\" ]",
        "limits.diameter ends at 105 mm, but 104 mm is the largest that the fixture holds: the gripper's stroke ends at 116 mm; state a range "
            + "that ends there or below")]
    public void A_diameter_that_does_not_fit_is_reported_with_its_numbers(string old, string @new, string said)
    {
        var revision = Repository.Good(Repository.Edit(Repository.Text(Pins), old, @new));

        Assert.Contains(EnvelopeFaults.Of(revision.Prepare(), LengthUnit.Millimetre), f => f.Contains(said, StringComparison.Ordinal));
    }

    /// <summary>A 60° vee has a sensitivity of exactly 2 and a held angle of exactly 60°; in doubles, not quite.</summary>
    [Theory]
    [InlineData("60 deg", "1.9999", "is 0.08 m: its sensitivity is 2, above")]
    [InlineData("60 deg", "2.0", null)]
    [InlineData("120 deg", "1.1547005383792517", null)]
    public void A_vee_that_is_exactly_at_the_limits_is_allowed(string included, string sensitivity, string? fault)
    {
        var text = Repository.Edit(
            Repository.Text(Pins), "\"pins\": { \"spacing\": \"60 mm\", \"diameter\": \"12 mm\", \"between\": \"centres\" }",
            $"\"vee\": {{ \"includedAngle\": \"{included}\" }}, \"top\": \"1 mm\"");
        text = Repository.Edit(text, "\"sensitivity\": 2.0", $"\"sensitivity\": {sensitivity}");
        text = Repository.Edit(text, "\"heldAngle\": \"5 deg\"", included == "60 deg" ? "\"heldAngle\": \"60 deg\"" : "\"heldAngle\": \"30 deg\"");
        text = Repository.Edit(text, "\"gripper\": {", "\"gripper\": { \"jawTipHeight\": \"2 mm\",");
        var reading = Repository.Read(text);

        Assert.Equal(fault is null, reading.Faults.Count == 0);
        Assert.True(
            fault is null ? reading.Revision!.Envelopes().Pick is not null : reading.Faults[0].ToString().Contains(fault, StringComparison.Ordinal),
            string.Join("; ", reading.Faults));
    }

    /// <summary>0.1 + 0.008 is more than 0.108 in doubles.</summary>
    [Fact]
    public void A_stated_end_that_is_exactly_the_stroke_is_within_the_envelope()
    {
        var text = Repository.Edit(Repository.Edit(Repository.Text(Pins), "\"openBy\": \"12 mm\"", "\"openBy\": \"8 mm\""), "\"116 mm\"", "\"108 mm\"");

        Assert.Equal(0.1, Repository.Good(text).Envelopes().Pick!.Greatest.DiameterMetres);
    }

    [Fact]
    public void An_envelope_fault_is_refused_at_adoption_and_skipped_at_a_first_start()
    {
        var folder = new FixtureFolder("pinbed-1", [File(3, Repository.Text(Pins)), File(4, Repository.Edit(Wide(), "\"revision\": 3", "\"revision\": 4"))], [])
            .Prepare(inForce: null);
        var verdict = AdoptionRule.Judge(folder, 4, 3, new Dictionary<int, string>(), LengthUnit.Millimetre);

        Assert.Equal(AdoptionResult.Faulty, verdict.Result);
        Assert.StartsWith("revision 4: limits.diameter ends at 105 mm", verdict.Message, StringComparison.Ordinal);
        Assert.Equal(3, AdoptionRule.First(folder, FirstAdoption.Automatic)!.Number);
    }

    /// <summary>A revision that an older version adopted stays in force: then the narrower range counts.</summary>
    [Fact]
    public void With_a_stated_range_that_is_too_wide_the_possible_part_of_it_is_answered() =>
        Assert.Equal(
            (0.104, Constraint.Stroke),
            Repository.Good(Wide()).Envelopes().Pick is { Greatest: var end } ? (Math.Round(end.DiameterMetres, 9), end.Constraint) : default);

    [Fact]
    public void A_finished_piece_is_placed_among_the_largest_stock_that_a_pick_allows()
    {
        var envelopes = Repository.Good(Repository.Text("veerack-2/r0002.json")).Envelopes();

        Assert.True(envelopes.Place!.Least.DiameterMetres > envelopes.Pick!.Least.DiameterMetres);
        Assert.Equal(
            (Constraint.Gap, PartyKind.Jaw, PartyKind.Stock),
            (envelopes.Place.Least.Constraint, envelopes.Place.Least.Gap!.Value.Mine.Kind, envelopes.Place.Least.Gap.Value.Theirs.Kind));
    }

    private static string Wide() =>
        Repository.Edit(Repository.Text(Pins), "\"diameter\": [ \"60 mm\", \"100 mm\" ]", "\"diameter\": [ \"60 mm\", \"105 mm\" ]");

    private static RevisionFile File(int number, string text) => new(number, $"pinbed-1/r{number:0000}.json", "", Repository.Read(text));
}
