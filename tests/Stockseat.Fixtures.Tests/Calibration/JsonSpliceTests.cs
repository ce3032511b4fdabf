using System.Text;
using Stockseat.Fixtures.Calibration;

namespace Stockseat.Fixtures.Tests.Calibration;

public sealed class JsonSpliceTests
{
    private const string Text =
        "{ // one\n  \"a\": 1, \"list\": [ { \"b\": 0 }, 2 ],\n  \"o\": { \"b\": \"x\", /* two */ \"p\": { \"b\": [ 1 ] } },\n  \"b\": true\n}\n";

    [Theory]
    [InlineData("a", "7", "\"a\": 1,", "\"a\": 7,")]
    [InlineData("b", "{ \"c\": 1 }", "\"b\": true", "\"b\": { \"c\": 1 }")]
    [InlineData("o.b", "\"é\"", "\"b\": \"x\"", "\"b\": \"é\"")]
    [InlineData("o.p.b", "null", "\"b\": [ 1 ]", "\"b\": null")]
    [InlineData("o.p", "0", "{ \"b\": [ 1 ] }", "0")]
    [InlineData("list", "[]", "[ { \"b\": 0 }, 2 ]", "[]")]
    public void Only_the_value_at_the_path_is_replaced(string path, string value, string old, string @new) =>
        Assert.Equal(Repository.Edit(Text, old, @new), Replace(Text, (path, value)));

    [Fact]
    public void Several_values_are_replaced_at_once() =>
        Assert.Equal(
            Repository.Edit(Repository.Edit(Text, "true", "\"longer than before\""), "\"a\": 1", "\"a\": 22"),
            Replace(Text, ("b", "\"longer than before\""), ("a", "22")));

    [Theory]
    [InlineData("c")]
    [InlineData("list.b")]
    [InlineData("o.p.b.x")]
    public void A_path_that_does_not_exist_is_not_silently_ignored(string path) =>
        Assert.Throws<KeyNotFoundException>(() => Replace(Text, (path, "1")));

    [Theory]
    [MemberData(nameof(Repository.DemoRows), MemberType = typeof(Repository))]
    public void Replacing_a_value_with_itself_leaves_a_demo_file_unchanged_bit_for_bit(string demo)
    {
        var text = Repository.Text(demo);
        var paths = new[] { "revision", "calibrated", "nest", "taught.position", "frame.normal" };

        Assert.Equal(text, Replace(text, [.. paths.Select(p => (p, JsonSplice.Get(Encoding.UTF8.GetBytes(text), p)))]));
    }

    private static string Replace(string text, params (string Path, string Value)[] values) =>
        Encoding.UTF8.GetString(JsonSplice.Replace(Encoding.UTF8.GetBytes(text), values.ToDictionary(v => v.Path, v => v.Value)));
}
