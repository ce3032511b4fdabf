using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using CsCheck;
using Stockseat.Fixtures.Canonical;

namespace Stockseat.Fixtures.Tests.Canonical;

public sealed class CanonicalJsonTests
{
    // Any bit pattern: most are huge or tiny, one in 2,048 is not a number.
    private static readonly Gen<double> AnyBits = Gen.ULong.Select(BitConverter.UInt64BitsToDouble).Where(double.IsFinite);

    private static readonly Gen<double> Subnormal = Gen.ULong[1, 0xF_FFFF_FFFF_FFFF].Select(BitConverter.UInt64BitsToDouble);

    // Exponents from 2^-24 to 2^75: across both values where the form changes, 1e-6 and 1e21.
    private static readonly Gen<double> Everyday = Gen.Select(Gen.ULong[999, 1098], Gen.ULong[0, 0xF_FFFF_FFFF_FFFF], Gen.Bool)
        .Select((exponent, fraction, minus) => BitConverter.UInt64BitsToDouble((minus ? 1UL << 63 : 0) | exponent << 52 | fraction));

    private static readonly Gen<double> Numbers = Gen.OneOf(AnyBits, Subnormal, Everyday, Gen.Int.Select(i => i / 1000.0));

    public static TheoryData<string, string, string, string> Cases
    {
        get
        {
            var rows = new TheoryData<string, string, string, string>();
            foreach (var c in Rfc8785.GetProperty("cases").EnumerateArray())
            {
                rows.Add(c.GetProperty("name").GetString()!, c.GetProperty("input").GetString()!,
                    c.GetProperty("output").GetString()!, c.GetProperty("output_sha256").GetString()!);
            }

            return rows;
        }
    }

    public static TheoryData<string, string> NumberSamples
    {
        get
        {
            var rows = new TheoryData<string, string>();
            foreach (var pair in Rfc8785.GetProperty("numbers").EnumerateArray())
            {
                rows.Add(pair[0].GetString()!, pair[1].GetString()!);
            }

            return rows;
        }
    }

    private static JsonElement Rfc8785 { get; } = JsonDocument.Parse(Repository.Published("rfc8785.json")).RootElement;

    [Theory]
    [MemberData(nameof(Cases))]
    public void Write_gives_the_published_text_and_digest(string name, string input, string output, string sha256)
    {
        var written = CanonicalJson.Write(JsonNode.Parse(input));

        Assert.Equal(output, Encoding.UTF8.GetString(written));
        Assert.True(sha256 == Convert.ToHexStringLower(SHA256.HashData(written)), name);
    }

    [Theory]
    [MemberData(nameof(NumberSamples))]
    public void Number_writes_the_published_samples(string bits, string text) => Assert.Equal(text, CanonicalJson.Number(FromBits(bits)));

    [Fact]
    public void Number_writes_what_another_ECMAScript_writes()
    {
        var rows = Repository.Published("es6-numbers-node.txt").Split('\n').Where(l => l.Length > 0 && l[0] != '#').Select(l => l.Split(' ')).ToArray();

        Assert.True(rows.Length > 250, $"only {rows.Length} samples");
        Assert.All(rows, row => Assert.Equal(row[1], CanonicalJson.Number(FromBits(row[0]))));
    }

    [Fact]
    public void Number_reads_back_to_the_same_bits() => Numbers.Sample(
        value => BitConverter.DoubleToInt64Bits(Parse(CanonicalJson.Number(value))) == BitConverter.DoubleToInt64Bits(value == 0 ? 0.0 : value),
        iter: 200_000);

    [Fact]
    public void Number_has_the_form_of_ECMAScript_for_its_size() => Numbers.Where(n => n != 0).Sample(
        value =>
        {
            var text = CanonicalJson.Number(value);
            var plain = Math.Abs(value) is >= 1e-6 and < 1e21;
            return Regex.IsMatch(text, plain ? @"\A-?(0|[1-9][0-9]*)(\.[0-9]*[1-9])?\z" : @"\A-?[1-9](\.[0-9]*[1-9])?e[+-][1-9][0-9]*\z");
        },
        iter: 50_000);

    [Fact]
    public void Number_has_no_more_digits_than_it_needs() => Numbers.Where(n => n != 0).Sample(
        value =>
        {
            var mantissa = CanonicalJson.Number(value).Split('e')[0].Replace(".", "", StringComparison.Ordinal).Trim('-').Trim('0');
            return mantissa.Length == 1
                || Parse(value.ToString($"E{mantissa.Length - 2}", CultureInfo.InvariantCulture)) != value;
        },
        iter: 50_000);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Number_refuses_what_JSON_does_not_have(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CanonicalJson.Number(value));

    [Fact]
    public void Writing_what_was_written_changes_nothing() => AnyTree(4).Sample(
        tree =>
        {
            var once = CanonicalJson.Write(tree());
            return once.AsSpan().SequenceEqual(CanonicalJson.Write(JsonNode.Parse(once)));
        },
        iter: 5_000);

    [Fact]
    public void Writing_keeps_every_value() => AnyTree(4).Sample(
        tree => JsonNode.DeepEquals(tree(), JsonNode.Parse(CanonicalJson.Write(tree()))), iter: 5_000);

    [Fact]
    public void Writing_does_not_depend_on_the_order_of_members() => Gen.Select(Gen.Dictionary(AnyText, Numbers)[2, 8], Gen.Int).Sample(
        (members, seed) =>
        {
            var order = members.ToArray();
            new Random(seed).Shuffle(order);
            return CanonicalJson.Write(Object(members)).AsSpan().SequenceEqual(CanonicalJson.Write(Object(order)));
        },
        iter: 5_000);

    [Fact]
    public void Write_refuses_half_a_surrogate_pair()
    {
        // RFC 8785 section 3.2.2.2: such text has no UTF-8 form and must stop the writer; a substitute would give two values the same digest.
        Assert.ThrowsAny<ArgumentException>(() => CanonicalJson.Write(JsonValue.Create("\uD83D")));
    }

    private static Gen<string> AnyText => Gen.String[Gen.OneOf(Gen.Char['\0', '\uD7FF'], Gen.Char[' ', '~'], Gen.OneOf('"', '\\', '\n', '/')), 0, 6];

    private static Gen<Func<JsonNode?>> AnyTree(int depth)
    {
        var scalar = Gen.OneOf<Func<JsonNode?>>(
            Numbers.Select(n => (Func<JsonNode?>)(() => JsonValue.Create(n == 0 ? 0.0 : n))),
            AnyText.Select(t => (Func<JsonNode?>)(() => JsonValue.Create(t))),
            Gen.Bool.Select(b => (Func<JsonNode?>)(() => JsonValue.Create(b))),
            Gen.Const(0).Select(_ => (Func<JsonNode?>)(() => null)));
        if (depth == 0)
        {
            return scalar;
        }

        var below = AnyTree(depth - 1);
        return Gen.OneOf<Func<JsonNode?>>(
            scalar,
            below.Array[0, 4].Select(items => (Func<JsonNode?>)(() => new JsonArray([.. items.Select(i => i())]))),
            Gen.Dictionary(AnyText, below)[0, 4].Select(members => (Func<JsonNode?>)(() =>
                new JsonObject(members.Select(m => KeyValuePair.Create(m.Key, m.Value()))))));
    }

    private static JsonObject Object(IEnumerable<KeyValuePair<string, double>> members) =>
        new(members.Select(m => KeyValuePair.Create(m.Key, (JsonNode?)JsonValue.Create(m.Value))));

    private static double FromBits(string hex) =>
        BitConverter.UInt64BitsToDouble(ulong.Parse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture));

    private static double Parse(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
