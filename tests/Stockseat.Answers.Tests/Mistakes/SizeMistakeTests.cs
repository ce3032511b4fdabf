using Stockseat.Answers.Tests.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Mistakes;

/// <summary>Plausible mistakes in the sizes of a revision: each test makes one and shows what catches it.</summary>
public sealed class SizeMistakeTests
{
    private const string Unseen = ", \"between\": \"centres\"";

    [Theory]
    [InlineData("27.3 mm", "between the edges of the pins, it is 40 mm")]
    [InlineData("52.7 mm", "over the pins, it is 40 mm")]
    public void A_spacing_between_the_edges_or_over_the_pins(string spacing, string said)
    {
        var wrong = Mistake.Between([(Unseen, "")], [(Unseen, ""), ("\"spacing\": \"40 mm\"", $"\"spacing\": \"{spacing}\"")]);

        wrong.IsAdvised("nest.pins.spacing", said);
        wrong.IsFoundByProving();
    }

    [Fact]
    public void A_pin_s_radius_given_as_its_diameter()
    {
        var wrong = Mistake.Of(("\"diameter\": \"12.7 mm\"", "\"diameter\": \"6.35 mm\""));

        wrong.IsAdvised("nest", "a pin of 6.35 mm is thin for stock of 63.5 mm. Check whether that is its radius: its diameter would be 12.7 mm");
        wrong.IsFoundByProving();
    }

    /// <summary>The far nests that the file names are not there.</summary>
    [Fact]
    public void Counts_of_columns_and_rows_swapped()
    {
        var swapped = Mistake.Of(("\"count\": 5", "\"count\": 9"), ("\"count\": 3", "\"count\": 5"), ("\"count\": 9", "\"count\": 3"));

        swapped.IsStated("3 columns, 75 mm apart");
        swapped.IsStated("5 rows, 90 mm apart");
        swapped.IsFoundByProving();
    }

    [Fact]
    public void Pitches_of_columns_and_rows_swapped()
    {
        var swapped = Mistake.Of(("75 mm", "76 mm"), ("\"pitch\": \"90 mm\"", "\"pitch\": \"75 mm\""), ("\"pitch\": \"76 mm\"", "\"pitch\": \"90 mm\""));

        swapped.IsStated("5 columns, 90 mm apart");
        swapped.IsStated("3 rows, 75 mm apart");
        swapped.IsFoundByProving();
    }

    [Theory]
    [InlineData("31.75 mm")]
    [InlineData("2.5 mm")]
    public void The_taught_diameter_as_a_radius_or_as_millimetres_for_inches(string diameter) =>
        Faulty(("\"diameter\": \"63.5 mm\"", $"\"diameter\": \"{diameter}\""), "taught.diameter: is ");

    [Fact]
    public void Taught_with_another_master_than_stated() => Mistake.Of(("\"diameter\": \"63.5 mm\"", "\"diameter\": \"60 mm\"")).IsFoundByProving();

    [Fact]
    public void Half_the_vee_s_angle_for_the_included_one()
    {
        var vee = Repository.Text("veerack-2/r0002.json");

        Assert.Empty(Faults(vee, "veerack-2"));
        var half = Repository.Edit(vee, "\"90 deg\", \"faceFrom\"", "\"45 deg\", \"faceFrom\"");
        Assert.Contains(Faults(half, "veerack-2"), f => f.Contains("face", StringComparison.Ordinal));
    }

    /// <summary>With three jaws it matters which way round they are: one points between the pins, or one at each.</summary>
    [Fact]
    public void Three_jaws_clocked_180_degrees_off()
    {
        var three = Repository.Edit(Repository.Text("pinbed-1/r0003.json"), "\"jaws\": 2", "\"jaws\": 3");
        string Text(int clocking) => Repository.Edit(three, "\"clocking\": \"90 deg\"", $"\"clocking\": \"{clocking} deg\"");

        Assert.Empty(Faults(Text(270), "pinbed-1"));
        Assert.Contains(Faults(Text(90), "pinbed-1"), f => f.Contains(" to pin ", StringComparison.Ordinal));
    }

    /// <summary>The bed with one mistake has that fault: it can't be adopted.</summary>
    internal static void Faulty((string Old, string New) edit, string said) => Assert.Contains(
        Faults(Repository.Edit(Racks.RightText, edit.Old, edit.New), "pinbed-1"), f => f.Contains(said, StringComparison.Ordinal));

    private static IEnumerable<string> Faults(string text, string fixture)
    {
        var reading = RevisionReader.Read(System.Text.Encoding.UTF8.GetBytes(text), "r.json", fixture, null);
        return reading.Revision is { } revision
            ? EnvelopeFaults.Of(revision.Prepare(), LengthUnit.Millimetre)
            : reading.Faults.Select(f => f.ToString());
    }
}
