using System.Text;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Tests.Revisions;

public class RevisionChangesTests
{
    private static readonly string File = System.IO.File.ReadAllText(Path.Combine(Repository.Root, "config", "fixtures", "pinbed-1", "r0003.json"));

    [Fact]
    public void Values_are_shown_as_the_files_state_them_with_the_taught_values_first() => Assert.Equal(
        [
            new("taught.diameter", "80 mm", "3.15 in"), new("taught.position.y", "-205.00 mm", "-0.206 m"),
            new("taught.orientation.w", "0.134164078649987", "-0.939148550549912"),
            new("taught.orientation.x", "-0.939148550549912", "0.134164078649987"),
            new("gripper.clocking", "90 deg", "1.5 rad"), new("layout[0].count", "6", "5"), new("limits.diameter[1]", "100 mm", "99 mm"),
            new("calibrated.note", "bed moved 40 mm", "pin changed"),
        ],
        Changes(
            ("\"diameter\": \"80 mm\"", "\"diameter\": \"3.15 in\""), ("-205.00 mm", "-0.206 m"), 
            ("\"w\": 0.134164078649987, \"x\": -0.939148550549912", "\"w\": -0.939148550549912, \"x\": 0.134164078649987"),
            ("90 deg", "1.5 rad"), ("\"count\": 6", "\"count\": 5"),
            ("100 mm", "99 mm"), ("bed moved 40 mm", "pin changed")));

    [Fact]
    public void Another_way_to_write_the_same_value_is_not_a_change() =>
        Assert.Empty(
            Changes(
                ("\"revision\": 3", "\"revision\": 4"), ("412.30 mm", "0.4123 m"), ("5 deg", "5.0deg"),
                ("// The clearance that the stock keeps to both pins while it is lifted out or set down.", "")));

    [Fact]
    public void A_key_that_was_added_or_removed_has_one_side() =>
        Assert.Equal(
            [new("limits.shift", "40 mm", null), new("returnsRawStock", null, "true")],
            Changes(("\"shift\": \"40 mm\",", ""), ("\"layout\":", "\"returnsRawStock\": true, \"layout\":")));

    [Fact]
    public void Resolved_values_are_shown_in_SI()
    {
        var before = Read(File);
        var content = RevisionReader.FromContent(
            Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(before.Revision!.Content.Span).Replace("-0.205", "-0.206", StringComparison.Ordinal)), "entry 1");

        Assert.Equal(new RevisionChange("taught.position.y", "-205.00 mm", "-0.206"), Assert.Single(RevisionChanges.Between(before, content)));
        var resolved = RevisionReader.FromContent(before.Revision.Content, "entry 2");
        Assert.Equal(new RevisionChange("taught.position.y", "-0.206", "-0.205", "m"), Assert.Single(RevisionChanges.Between(content, resolved)));
    }

    private static IReadOnlyList<RevisionChange> Changes(params (string Old, string New)[] edits) => RevisionChanges.Between(
        Read(File),
        Read(edits.Aggregate(File, (text, edit) =>
        {
            Assert.Contains(edit.Old, text, StringComparison.Ordinal);
            return text.Replace(edit.Old, edit.New, StringComparison.Ordinal);
        })));

    private static RevisionReading Read(string text)
    {
        var reading = RevisionReader.Read(Encoding.UTF8.GetBytes(text), "r.json", null, null);
        Assert.Empty(reading.Faults);
        return reading;
    }
}
