using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

public sealed class RevisionReaderTests
{
    private const string Pins = "pinbed-1/r0003.json";

    public static TheoryData<string> Demo => Repository.DemoRows;

    public static TheoryData<int> BadRows => [.. Enumerable.Range(0, Mutation.Bad.Length)];

    public static TheoryData<int> GoodRows => [.. Enumerable.Range(0, Mutation.Good.Length)];

    [Fact]
    public void The_demo_has_its_three_fixtures() => Assert.Equal(
        [
            "pinbed-1/r0001.json", "pinbed-1/r0002.json", "pinbed-1/r0003.json", "rollers-3/r0001.json", "rollers-3/r0002.json", "veerack-2/r0001.json",
            "veerack-2/r0002.json",
        ], Repository.Demo);

    [Theory]
    [MemberData(nameof(Demo))]
    public void A_demo_revision_reads_without_faults(string demo)
    {
        var parts = demo.Split('/');
        var reading = Repository.Read(Repository.Text(demo), demo, parts[0], int.Parse(parts[1].AsSpan(1, 4), CultureInfo.InvariantCulture));

        Assert.Empty(reading.Faults);
        Assert.Equal(parts[0], reading.Revision!.Fixture);
    }

    [Fact]
    public void The_pin_bed_has_its_values_in_SI()
    {
        var r = Repository.Good(Repository.Text(Pins));

        Assert.Equal(("pinbed-1", 3, "cell-1 base", "two-jaw, centre"), (r.Fixture, r.Number, r.TaughtIn, r.TaughtWith));
        Assert.Equal(
            new CalibrationNote("2026-11-20T09:12:00Z", "day setter", "four nests touched with the 80 mm master", "bed moved 40 mm"), r.Calibrated);
        Assert.Equal((-0.03, 0.03, 0.006), (r.Nest.First.Point.U, r.Nest.Second.Point.U, r.Nest.First.RadiusMetres));
        Assert.Equal(new Layout(new('u', 6, 0.125), new('v', 4, 0.13)), r.Layout);
        Assert.Equal(0.08, r.TaughtDiameterMetres);
        Assert.Equal(new(0.4123, -0.205, 0.118), r.TaughtOrigin.PositionMetres);

        // The bed is turned 36.87 deg about base z, and its slope is 16.26 deg.
        Near(new(0.8, 0.6, 0), r.Frame.U);
        Near(new(-0.576, 0.768, 0.28), r.Frame.V);
        Near(new(0.168, -0.224, 0.96), r.Frame.W);

        // Square to the bed and pointing into it: tool x is u, tool y the seat axis reversed, tool z the normal reversed.
        Near(new(0.8, 0.6, 0), r.TaughtOrigin.Orientation.Apply(new(1, 0, 0)));
        Near(new(0.576, -0.768, -0.28), r.TaughtOrigin.Orientation.Apply(new(0, 1, 0)));
        Near(new(-0.168, 0.224, -0.96), r.TaughtOrigin.Orientation.Apply(new(0, 0, 1)));
        Assert.Equal((0.0003, 0.0005), (r.StandOffPickMetres, r.StandOffPlaceMetres));
        Assert.Equal((0.06, 0.1), r.Limits.DiameterMetres);
        Assert.Equal((0.04, 2.0, null), (r.Limits.ShiftMetres, r.Limits.Sensitivity, r.Limits.FirstAboveMetres));
        Assert.Equal(Math.PI / 36, r.Limits.HeldRadians, 1e-16);
        Assert.False(r.ReturnsRawStock);

        // Two equal pins: v = √((R+r)² − a²) = √(46² − 30²) mm = √1216 mm.
        Assert.Equal(0, r.TaughtCentre.U, 1e-15);
        Assert.Equal(0.0348711915483254, r.TaughtCentre.V, 1e-15);
    }

    [Fact]
    public void The_vee_rack_in_inches_has_its_values_in_SI()
    {
        var r = Repository.Good(Repository.Text("veerack-2/r0001.json"));

        Assert.Equal((0.009525, 0.06985), (r.Nest.First.FromMetres, r.Nest.Second.ToMetres));
        Assert.Equal(0.06985, r.TaughtDiameterMetres);
        Assert.Equal(0.000508, r.Limits.FirstAboveMetres);
        Assert.Equal(Limits.UsualHeldRadians, r.Limits.HeldRadians);

        // A vee of half-angle 45 deg: v = R/sin 45 deg = 34.925 mm · √2.
        Assert.Equal(0.0493914086658803, r.TaughtCentre.V, 1e-15);

        // About z by 30 deg, then by 180 deg about the new x: x along the rack, z straight down.
        Near(new(0.866025403784439, 0.5, 0), r.TaughtOrigin.Orientation.Apply(new(1, 0, 0)));
        Near(new(0.5, -0.866025403784439, 0), r.TaughtOrigin.Orientation.Apply(new(0, 1, 0)));
        Near(new(0, 0, -1), r.TaughtOrigin.Orientation.Apply(new(0, 0, 1)));
    }

    [Fact]
    public void The_rollers_seat_straight_up()
    {
        var r = Repository.Good(Repository.Text("rollers-3/r0001.json"));

        Assert.Equal((new(0, 1, 0), new(0, 0, 1), new(1, 0, 0)), (r.Frame.U, r.Frame.V, r.Frame.W));
        Assert.Equal(0.0469041575982343, r.TaughtCentre.V, 1e-15); // √(65² − 45²) mm = √2200 mm
        Assert.True(r.ReturnsRawStock);

        // Half a turn about x = y swaps x and y and reverses z.
        Near(new(0, 1, 0), r.TaughtOrigin.Orientation.Apply(new(1, 0, 0)));
        Near(new(0, 0, -1), r.TaughtOrigin.Orientation.Apply(new(0, 0, 1)));
    }

    [Theory]
    [MemberData(nameof(BadRows))]
    public void A_wrong_value_gives_its_fault_and_no_other(int row)
    {
        var m = Mutation.Bad[row];
        var reading = Repository.Read(Repository.Edit(Repository.Text(m.Demo), m.Old, m.New), "folder/r0003.json");

        Assert.Null(reading.Revision);
        var fault = Assert.Single(reading.Faults);
        Assert.StartsWith($"folder/r0003.json: {m.Path}: ", fault, StringComparison.Ordinal);
        Assert.Contains(m.Says, fault, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(GoodRows))]
    public void The_same_value_written_in_another_way_is_read(int row)
    {
        var (demo, old, @new) = Mutation.Good[row];
        Repository.Good(Repository.Edit(Repository.Text(demo), old, @new));
    }

    [Fact]
    public void All_faults_are_reported_at_once()
    {
        // One mutation for each place; the three that compare several values need those values to be readable.
        var (text, applied) = (Repository.Text(Pins), new List<Mutation>());
        foreach (var m in Mutation.Bad.Where(m => m.Demo == Pins && m.Path is not ("nest" or "layout" or "taught.diameter")).DistinctBy(m => m.Old))
        {
            if (text.Contains(m.Old, StringComparison.Ordinal))
            {
                text = Repository.Edit(text, m.Old, m.New);
                applied.Add(m);
            }
        }

        var faults = Repository.Read(text).Faults;

        Assert.True(applied.Count > 12, $"only {applied.Count} places changed");
        Assert.Equal(applied.Select(m => $"r.json: {m.Path}: ").Order(), faults.Select(f => f[..(f.IndexOf(": ", 8, StringComparison.Ordinal) + 2)]).Order());
    }

    [Fact]
    public void Both_values_of_a_pair_are_named_when_both_are_wrong()
    {
        var faults = Repository.Read(Repository.Edit(Repository.Text(Pins), "[ \"60 mm\", \"100 mm\" ]", "[ \"60\", \"100\" ]")).Faults;

        Assert.Equal(["limits.diameter[0]", "limits.diameter[1]"], faults.Select(f => f.Split(": ")[1]));
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void A_value_of_another_kind_is_a_fault_at_its_path(string demo)
    {
        var count = Tree.Places(Tree.Parse(Repository.Text(demo))).Count;
        for (var i = 0; i < count; i++)
        {
            foreach (var other in new[] { "null", "[]", "{}", "true", "\"\"", "-7777777777" })
            {
                var root = Tree.Parse(Repository.Text(demo));
                var place = Tree.Places(root)[i];
                var allowed = (other == "\"\"" && place.Key == "note") || (other == "true" && place.Key == "returnsRawStock")
                    || (other == "{}" && place.Path is "standOff" or "limits" or "uncertainty");
                place.Set(JsonNode.Parse(other));
                var faults = Repository.Read(root.ToJsonString()).Faults;

                if (allowed && other != "null")
                {
                    Assert.Empty(faults);
                    continue;
                }

                Assert.NotEmpty(faults);
                Assert.All(faults, f => Assert.StartsWith($"r.json: {place.Path}", f, StringComparison.Ordinal));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void An_unknown_or_repeated_key_is_a_fault_in_every_object(string demo)
    {
        var root = Tree.Parse(Repository.Text(demo));
        string[] objects = ["", .. Tree.Places(root).Where(p => p.Value is JsonObject).Select(p => p.Path)];
        foreach (var path in objects)
        {
            var twice = Repository.Read(Tree.WithFirstMemberTwice(root, path)).Faults;
            Assert.EndsWith("the key appears twice; keep one", Assert.Single(twice), StringComparison.Ordinal);
            Assert.StartsWith($"r.json: {path}", twice[0], StringComparison.Ordinal);

            var changed = Tree.Parse(Repository.Text(demo));
            var target = path.Length == 0 ? changed : Tree.Places(changed).Single(p => p.Path == path).Value!.AsObject();
            target["colour"] = "blue";
            var unknown = Assert.Single(Repository.Read(changed.ToJsonString()).Faults);
            Assert.StartsWith($"r.json: {(path.Length == 0 ? "" : path + ".")}colour: is not a key that belongs here", unknown, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Folder_and_number_have_to_agree_with_the_file()
    {
        var faults = Repository.Read(Repository.Text(Pins), "veerack-2/r0004.json", "veerack-2", 4).Faults;

        Assert.Equal(2, faults.Count);
        Assert.Equal("veerack-2/r0004.json: fixture: is \"pinbed-1\"; \"veerack-2\", the name of its folder, was expected", faults[0]);
        Assert.Equal("veerack-2/r0004.json: revision: is 3; 4, the number in the name of the file, was expected", faults[1]);
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void A_file_cut_off_at_any_byte_is_a_fault(string demo)
    {
        var text = Repository.Edit(Repository.Text(demo), "\"by\": \"day setter\"", "\"by\": \"Fräser € \U0001F529\"").TrimEnd();
        var bytes = Encoding.UTF8.GetBytes(text);
        Assert.Empty(RevisionReader.Read(bytes, "r.json", null, null).Faults);

        for (var length = 0; length < bytes.Length; length++)
        {
            var reading = RevisionReader.Read(bytes.AsMemory(0, length), "r.json", null, null);
            Assert.Null(reading.Revision);
            Assert.StartsWith("r.json: is not JSON at line ", Assert.Single(reading.Faults), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("nest")]
    [InlineData("{} {}")]
    [InlineData("{\"fixture\":\"a\",}")]
    [InlineData("{'fixture':'a'}")]
    [InlineData("{\"revision\":01}")]
    [InlineData("{\"revision\":NaN}")]
    [InlineData("{\"fixture\":\"a\nb\"}")]
    [InlineData("\uFEFF\uFEFF{}")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[")]
    public void A_file_that_is_not_JSON_is_reported_with_line_and_byte(string text) =>
        Assert.Matches(@"\Ar\.json: is not JSON at line [0-9]+, byte [0-9]+: ", Assert.Single(Repository.Read(text).Faults));

    [Theory]
    [InlineData("\"by\": \"day \\ud800 setter\"")]
    [InlineData("\"by\": \"x\", \"\\udc00\": 1")]
    public void Half_a_surrogate_pair_is_a_fault(string written)
    {
        var fault = Assert.Single(Repository.Read(Repository.Edit(Repository.Text(Pins), "\"by\": \"day setter\"", written)).Faults);
        Assert.StartsWith("r.json: has half a surrogate pair at line 9;", fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("setter")]
    [InlineData("by")]
    [InlineData("Spacing")]
    public void A_file_that_is_not_UTF_8_is_a_fault(string word)
    {
        // "\u00e9" as Latin-1 writes it: one byte, in a value, in a key, in a comment.
        var bytes = Encoding.Latin1.GetBytes(Repository.Text(Pins).Replace(word, "\u00e9" + word, StringComparison.Ordinal));
        var fault = Assert.Single(RevisionReader.Read(bytes, "r.json", null, null).Faults);
        Assert.StartsWith("r.json: is not UTF-8", fault, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]", "holds an array")]
    [InlineData("\"x\"", "holds the text \"x\"")]
    [InlineData("1", "holds the number \"1\"")]
    [InlineData("null", "holds null")]
    public void A_file_that_is_not_an_object_is_a_fault(string text, string says) =>
        Assert.StartsWith($"r.json: {says}; an object", Assert.Single(Repository.Read(text).Faults), StringComparison.Ordinal);

    [Fact]
    public void An_empty_object_names_each_missing_key()
    {
        var faults = Repository.Read("{}").Faults;

        Assert.Equal(["calibrated", "fixture", "frame", "nest", "revision", "taught"], faults.Select(f => f.Split(": ")[1]).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_byte_order_mark_in_front_changes_nothing()
    {
        byte[] marked = [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(Repository.Text(Pins))];
        var reading = RevisionReader.Read(marked, "r.json", "pinbed-1", 3);

        Assert.Empty(reading.Faults);
        Assert.Equal(Repository.Good(Repository.Text(Pins)).Digest, reading.Revision!.Digest);
    }

    [Theory]
    [InlineData("a", true)]
    [InlineData("0-", true)]
    [InlineData("a123456789b123456789c123456789d123456789e123456789f123456789g12", true)]
    [InlineData("a123456789b123456789c123456789d123456789e123456789f123456789g123", false)]
    [InlineData("", false)]
    [InlineData("-a", false)]
    [InlineData("A", false)]
    [InlineData("a\n", false)]
    [InlineData("..", false)]
    [InlineData("a/b", false)]
    [InlineData("ä", false)]
    public void A_name_consists_of_a_to_z_digits_and_hyphens(string text, bool isName) => Assert.Equal(isName, RevisionReader.IsName(text));

    [Fact]
    public void Reading_and_its_faults_do_not_change_under_a_decimal_comma()
    {
        var here = ReadAll();
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal("0,5", 0.5.ToString());
            Assert.Equal(here, ReadAll());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        static List<string> ReadAll() =>
        [
            .. Repository.Demo.SelectMany(d => Bits.Of(Repository.Good(Repository.Text(d)))),
            .. Mutation.Bad.SelectMany(m => Repository.Read(Repository.Edit(Repository.Text(m.Demo), m.Old, m.New)).Faults),
        ];
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void Every_part_of_a_revision_can_be_written_as_text(string demo)
    {
        // A log line or a failed assertion does so; a part that prints itself endlessly would end the process.
        var r = Repository.Good(Repository.Text(demo));

        Assert.All(
            new object[] { r.Nest, r.Frame, r.TaughtOrigin, r.TaughtCentre, r.Layout, r.Limits, r.Calibrated }, part => Assert.NotEmpty(part.ToString()!));
        Assert.Equal("(0.25, -0.5)", new Seating.Frames.PlanVector(0.25, -0.5).ToString());
    }

    private static void Near(Seating.Frames.Vector3 expected, Seating.Frames.Vector3 actual) => Assert.True((expected - actual).Length < 1e-14, $"{actual}");
}
