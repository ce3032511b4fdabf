using System.Text;
using System.Text.Json;
using Json.Schema;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using static Stockseat.Fixtures.Tests.Calibration.Touches;

namespace Stockseat.Fixtures.Tests.Calibration;

/// <summary>A frame given in a revision's file as touched nests: what the reader and the schema accept and refuse.</summary>
public sealed class FrameInFileTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(Repository.Schema);

    private static readonly string Text = Encoding.UTF8.GetString(
        Calibrate(Rack, Table(OfRack(0, 0, 80), OfRack(4, 0, 80), OfRack(0, 1, 80), OfRack(4, 1, 70)), Request() with { ResidualLimit = "0.2 mm" })
            .Text!.Value.Span);

    /// <summary>The text in the file, what replaces it, the path of the fault, words that the fault has to contain, whether a schema can find it.</summary>
    public static TheoryData<string, string, string, string, bool> Bad => new()
    {
        { "{ \"column\": 4, \"row\": 0,", "{ \"column\": 5, \"row\": 0,", "frame.touchedNests[1]", "nest 5,0 is not in the layout", false },
        { "{ \"column\": 4, \"row\": 0,", "{ \"column\": 0, \"row\": 0,", "frame.touchedNests[1]", "nest 0,0 appears twice", false },
        { "{ \"column\": 4, \"row\": 0,", "{ \"column\": -1, \"row\": 0,", "frame.touchedNests[1].column", "a whole number from 0 to 9999", true },
        { "{ \"column\": 4, \"row\": 0,", "{ \"row\": 0,", "frame.touchedNests[1].column", "is missing", true },
        { "{ \"column\": 4, \"row\": 0,", "{ \"column\": 4, \"row\": 0, \"w\": 1,", "frame.touchedNests[1].w", "not a key that belongs here", true },
        { "\"diameter\": \"70 mm\"", "\"diameter\": \"70\"", "frame.touchedNests[3].diameter", "it has no unit", true },
        { "\"diameter\": \"70 mm\"", "\"diameter\": \"200 mm\"", "frame.touchedNests[3]", "a master of 200 mm has no seat in this nest", false },
        { "\"diameter\": \"70 mm\"", "\"diameter\": \"71 mm\"", "frame.touchedNests", "from its fitted place; the limit is 0.2 mm", false },
        { "\"residualLimit\": \"0.2 mm\"", "\"residualLimit\": \"0 mm\"", "frame.residualLimit", "above 0 m to 10 m", true },
        { "\"residualLimit\": \"0.2 mm\"", "\"originLimit\": \"0.2\"", "frame.originLimit", "it has no unit", true },
        {
            "\"residualLimit\": \"0.2 mm\"", "\"residualLimit\": \"0.2 mm\", \"seatAxis\": { \"x\": 0, \"y\": 1, \"z\": 0 }", "frame.seatAxis",
            "follows from touchedNests", true
        },
        { "\"z\": 1 }", "\"z\": -1 }", "frame.touchedNests", "points against the stated one", false },
        { "\"z\": 1 }", "\"z\": 0 }", "frame.normal", "has the length 0", false },
        { "\"y\": \"180.00 mm\"", "\"y\": \"181.50 mm\"", "frame.touchedNests", "from the taught origin", false },
    };

    [Fact]
    public void The_file_reads() => Assert.Equal(4, Repository.Good(Text).Touched!.Nests.Count);

    [Fact]
    public void The_file_passes_the_schema() => Assert.True(Passes(Text));

    [Theory]
    [MemberData(nameof(Bad))]
    public void A_wrong_value_gives_its_fault_and_no_other(string old, string @new, string path, string says, bool schema)
    {
        var text = Repository.Edit(Text, old, @new);
        var fault = Assert.Single(Repository.Read(text).Faults);

        Assert.StartsWith($"r.json: {path}: ", fault, StringComparison.Ordinal);
        Assert.Contains(says, fault, StringComparison.Ordinal);
        Assert.Equal(!schema, Passes(text));
    }

    [Fact]
    public void Touched_nests_are_in_the_digest()
    {
        var place = Repository.Good(Text).Touched!.Nests[0].PositionMetres;
        var x = (1000 * place.X).ToString("F10", System.Globalization.CultureInfo.InvariantCulture);
        var other = Repository.Good(Repository.Edit(Text, $"\"{x} mm\"", "\"651.4 mm\""));

        Assert.NotEqual(Repository.Good(Text).Digest, other.Digest);
    }

    [Fact]
    public void An_adopted_revision_is_read_back_whatever_the_limits_are_now()
    {
        var content = Encoding.UTF8.GetString(Repository.Good(Text).Content.Span);
        var looser = Repository.Edit(content, "\"diameter\":0.07,", "\"diameter\":0.071,");

        Assert.InRange(RevisionReader.FromContent(Encoding.UTF8.GetBytes(looser), "entry 1").Revision!.Touched!.Fit.WorstMetres, 0.0002, 0.001);
        Assert.NotEmpty(Repository.Read(Repository.Edit(Text, "\"diameter\": \"70 mm\"", "\"diameter\": \"71 mm\"")).Faults);
    }

    [Fact]
    public void Faults_elsewhere_come_alone_since_the_fit_depends_on_those_values()
    {
        var faults = Repository.Read(Repository.Edit(Text, "\"pitch\": \"6 in\"", "\"pitch\": \"6\"")).Faults;

        Assert.StartsWith("r.json: layout[1].pitch: ", Assert.Single(faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_taught_diameter_without_a_seat_is_the_fault_that_is_reported()
    {
        var faults = Repository.Read(Repository.Edit(Text, "\"diameter\": \"2.75 in\"", "\"diameter\": \"9 in\"")).Faults;

        Assert.StartsWith("r.json: taught.diameter: ", Assert.Single(faults), StringComparison.Ordinal);
    }

    private static bool Passes(string text)
    {
        using var file = JsonDocument.Parse(text, new() { CommentHandling = JsonCommentHandling.Skip });
        return Schema.Evaluate(file.RootElement).IsValid;
    }
}
