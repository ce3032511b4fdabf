using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

/// <summary>What the digest covers and what it does not: it covers the values, and nothing else.</summary>
public sealed partial class DigestTests
{
    public static TheoryData<string> Demo => Repository.DemoRows;

    public static TheoryData<string, string, string> Known
    {
        get
        {
            var lines = Repository.Published("demo-content.txt").Split('\n').Where(l => l.Length > 0 && l[0] != '#').ToArray();
            var rows = new TheoryData<string, string, string>();
            foreach (var pair in lines.Chunk(2))
            {
                var head = pair[0].Split(' ');
                rows.Add(head[0], head[1], pair[1]);
            }

            return rows;
        }
    }

    [Theory]
    [MemberData(nameof(Known))]
    public void Content_and_digest_are_what_another_program_computes(string demo, string digest, string content)
    {
        var revision = Repository.Good(Repository.Text(demo));

        Assert.Equal(content, Encoding.UTF8.GetString(revision.Content.Span));
        Assert.Equal(digest, revision.Digest);
    }

    [Fact]
    public void Every_demo_revision_has_a_known_digest() => Assert.Equal(Repository.Demo, Known.Select(row => row.Data.Item1));

    [Theory]
    [MemberData(nameof(Demo))]
    public void Comments_white_space_and_the_schema_do_not_change_the_digest(string demo)
    {
        var text = Repository.Text(demo);
        var digest = Repository.Good(text).Digest;
        var root = Tree.Parse(text);

        Assert.Equal(digest, Repository.Good(root.ToJsonString()).Digest);
        Assert.Equal(digest, Repository.Good(text.Replace("\n", "\r\n\t", StringComparison.Ordinal)).Digest);
        Assert.Equal(digest, Repository.Good("/* spacing: \"60 mm\" */" + text.Replace("{", "{ /* } */", StringComparison.Ordinal) + "// the end").Digest);
        root["$schema"] = "https://somewhere.else/";
        Assert.Equal(digest, Repository.Good(root.ToJsonString()).Digest);
        root.Remove("$schema");
        Assert.Equal(digest, Repository.Good(root.ToJsonString()).Digest);
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void The_order_of_keys_does_not_change_the_digest(string demo)
    {
        var turned = Turned(Tree.Parse(Repository.Text(demo)))!;

        Assert.Equal("$schema", turned.AsObject().Last().Key);
        Assert.Equal(Repository.Good(Repository.Text(demo)).Digest, Repository.Good(turned.ToJsonString()).Digest);

        static JsonNode? Turned(JsonNode? node) => node switch
        {
            JsonObject o => new JsonObject(o.Reverse().Select(m => KeyValuePair.Create(m.Key, Turned(m.Value)))),
            JsonArray a => new JsonArray([.. a.Select(Turned)]),
            _ => node?.DeepClone(),
        };
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void The_unit_of_a_length_or_a_mass_does_not_change_the_digest(string demo)
    {
        var digest = Repository.Good(Repository.Text(demo)).Digest;
        foreach (var other in new[] { "m", "mm", "um", "kg", "g" })
        {
            var root = Tree.Parse(Repository.Text(demo));
            var changed = 0;
            foreach (var place in Tree.Leaves(root).Where(IsQuantity))
            {
                if (InUnit(place.Value!.GetValue<string>(), other) is { } text)
                {
                    place.Set(text);
                    changed++;
                }
            }

            Assert.True(changed > 0 || other is "kg" or "g");
            Assert.Equal(digest, Repository.Good(root.ToJsonString()).Digest);
        }
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void Any_changed_value_changes_the_digest(string demo)
    {
        var seen = new Dictionary<string, string> { [Repository.Good(Repository.Text(demo)).Digest] = "nothing" };
        var leaves = Tree.Leaves(Tree.Parse(Repository.Text(demo))).Count;
        var words = Tree.Leaves(Tree.Parse(Repository.Text(demo))).Count(p => p.Path.EndsWith("between", StringComparison.Ordinal));
        for (var i = 0; i < leaves; i++)
        {
            var root = Tree.Parse(Repository.Text(demo));
            var place = Tree.Leaves(root)[i];
            if (place.Path.EndsWith("between", StringComparison.Ordinal))
            {
                continue; // It has only one value; leaving it out is tested below.
            }

            place.Set(Changed(place));
            Assert.True(seen.TryAdd(Repository.Good(root.ToJsonString()).Digest, place.Path), place.Path);
        }

        Assert.Equal(leaves - words + 1, seen.Count);
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void Leaving_out_an_optional_key_changes_the_digest(string demo)
    {
        var digests = new HashSet<string> { Repository.Good(Repository.Text(demo)).Digest };
        var count = Tree.Places(Tree.Parse(Repository.Text(demo))).Count;
        var left = 1;
        for (var i = 0; i < count; i++)
        {
            var root = Tree.Parse(Repository.Text(demo));
            var place = Tree.Places(root)[i];
            if (place.Key is not null && place.Parent.AsObject().Remove(place.Key) && Repository.Read(root.ToJsonString()).Revision is { } revision)
            {
                digests.Add(revision.Digest);
                left++;
            }
        }

        Assert.True(left > 4);
        Assert.Equal(left, digests.Count);
    }

    [Fact]
    public void A_default_that_is_stated_gives_other_content_than_one_left_out()
    {
        // The content has only the keys that are present, no defaults filled in: 5 deg is the usual held angle.
        var stated = Repository.Good(Repository.Text("pinbed-1/r0003.json"));
        var unstated = Repository.Good(Repository.Edit(Repository.Text("pinbed-1/r0003.json"), "\"heldAngle\": \"5 deg\",", ""));

        Assert.Equal(stated.Limits.HeldRadians, unstated.Limits.HeldRadians);
        Assert.NotEqual(stated.Digest, unstated.Digest);
    }

    [Theory]
    [MemberData(nameof(Demo))]
    public void The_content_alone_gives_the_same_revision_to_the_last_bit(string demo)
    {
        var revision = Repository.Good(Repository.Text(demo));
        var reading = RevisionReader.FromContent(revision.Content, "the ledger");

        Assert.Empty(reading.Faults);
        Assert.Equal(revision.Digest, Convert.ToHexStringLower(SHA256.HashData(revision.Content.Span)));
        Assert.Equal(Bits.Of(revision), Bits.Of(reading.Revision!));
    }

    [Fact]
    public void Seventeen_digits_read_back_from_the_content_to_the_last_bit()
    {
        var text = Repository.Edit(Repository.Text("pinbed-1/r0003.json"), "\"x\": \"412.30 mm\"", "\"x\": \"0.30000000000000004 m\"");
        text = Repository.Edit(text, "\"clocking\": \"90 deg\"", "\"clocking\": \"359.99999999999994 deg\"");
        text = Repository.Edit(text, "\"heldAngle\": \"5 deg\"", "\"heldAngle\": \"7.3000000000000007 deg\"");
        var revision = Repository.Good(text);

        Assert.Equal(0.1 + 0.2, revision.TaughtOrigin.PositionMetres.X);
        Assert.Equal(Bits.Of(revision), Bits.Of(RevisionReader.FromContent(revision.Content, "the ledger").Revision!));
    }

    [Fact]
    public void A_text_with_a_unit_is_not_valid_content()
    {
        var faults = RevisionReader.FromContent(Encoding.UTF8.GetBytes(Repository.Text("pinbed-1/r0001.json")), "serial 7").Faults;

        Assert.True(faults.Count > 5);
        Assert.All(faults, f => Assert.StartsWith("serial 7: ", f, StringComparison.Ordinal));
    }

    [Fact]
    public void Bits_distinguishes_the_last_bit_and_the_sign_of_zero()
    {
        Assert.NotEqual(Bits.Of(new Seating.Frames.PlanVector(1, 0)), Bits.Of(new Seating.Frames.PlanVector(Math.BitIncrement(1), 0)));
        Assert.NotEqual(Bits.Of(new Seating.Frames.PlanVector(1, 0)), Bits.Of(new Seating.Frames.PlanVector(1, -0.0)));
        Assert.Equal(Bits.Of(new Seating.Frames.PlanVector(1, 0)), Bits.Of(new Seating.Frames.PlanVector(1, 0)));
        var parts = Bits.Of(Repository.Good(Repository.Text("pinbed-1/r0003.json")));
        Assert.All(
            [
                "Revision.Nest.First.RadiusMetres", "Revision.Limits.DiameterMetres.Item2", "Revision.Layout.Second.PitchMetres",
                "Revision.TaughtOrigin.Orientation.X",
            ],
            path => Assert.Contains(parts, p => p.StartsWith(path + " ", StringComparison.Ordinal)));
    }

    private static bool IsQuantity(Place place) =>
        place.Value!.GetValueKind() == JsonValueKind.String && QuantityText().IsMatch(place.Value.GetValue<string>());

    /// <summary>The same quantity in another unit, in decimal arithmetic; null when that unit is of another kind.</summary>
    private static string? InUnit(string text, string other)
    {
        var match = QuantityText().Match(text);
        if (Factor(match.Groups[2].Value) is not { } from || Factor(other) is not { } to || from.Kind != to.Kind)
        {
            return null;
        }

        var number = decimal.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) * from.Times / to.Times;
        return number.ToString(CultureInfo.InvariantCulture) + other;
    }

    private static (char Kind, decimal Times)? Factor(string unit) => unit switch
    {
        "m" => ('L', 1m),
        "mm" => ('L', 0.001m),
        "um" => ('L', 0.000001m),
        "in" => ('L', 0.0254m),
        "kg" => ('M', 1m),
        "g" => ('M', 0.001m),
        _ => null,
    };

    /// <summary>Another value of the same kind, close by and still good.</summary>
    private static JsonNode Changed(Place place)
    {
        var value = place.Value!;
        return (place.Key, value.GetValueKind()) switch
        {
            ("revision" or "count" or "jaws", _) => value.GetValue<int>() + 1,
            ("seatedBy", _) => value.GetValue<string>() == "push" ? "weight" : "push",
            ("direction", _) => value.GetValue<string>() == "w" ? "u" : "w",
            ("at", _) => value.GetValue<string>().Replace("2026", "2025", StringComparison.Ordinal),
            (_, JsonValueKind.True) => false,
            (_, JsonValueKind.Number) => value.GetValue<double>() + 1e-5,
            _ when IsQuantity(place) => QuantityText().Replace(
                value.GetValue<string>(), m => m.Groups[1].Value + (m.Groups[1].Value.Contains('.') ? "001" : ".001") + m.Groups[2].Value),
            _ => value.GetValue<string>() + "x",
        };
    }

    [GeneratedRegex(@"\A(-?[0-9.]+) ?([a-z]+)\z")]
    private static partial Regex QuantityText();
}
