using System.Text;
using CsCheck;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

public class BareLinesTests
{
    private readonly FakeTimeProvider _time = new();
    private readonly BareLines _lines;

    public BareLinesTests() => _lines = new(_time);

    [Theory]
    [InlineData("92.40\n92.41\n")]
    [InlineData("92.40\r92.41\r")]
    [InlineData("92.40\r\n92.41\r\n")]
    [InlineData("\r\n\n 92.40\t\r\n\r\n  92.41  \n")]
    public void Every_line_ending_is_accepted_and_empty_lines_are_skipped(string text) => Assert.Equal(["92.40", "92.41"], Take(text));

    [Fact]
    public void The_pieces_in_which_a_line_arrives_do_not_matter() =>
        Assert.Equal(["92.40", "92.41"], "92.40\r\n92.41\r\n".SelectMany(c => Take(c.ToString())));

    [Fact]
    public void A_line_of_256_bytes_is_accepted_and_a_longer_one_is_skipped_to_its_end()
    {
        Assert.Equal([new string('1', 256)], Take(new string('1', 256) + "\n"));
        Assert.Equal(["too-long", "92.40"], Take(new string('1', 257) + "\n92.40\n"));
        Assert.Equal(["too-long"], Take(new string('1', 300)));
        Assert.Empty(Take("92"));
        Assert.Equal(["92.41"], Take(".40\n92.41\n"));
    }

    [Theory]
    [InlineData("92.40\u00b5")]
    [InlineData("92\0.40")]
    [InlineData("92\u001b[1A")]
    public void Other_bytes_are_not_text(string text) => Assert.Equal(["not-text", "92.40"], Take(text + "\n92.40\n"));

    [Fact]
    public void Half_a_line_at_the_end_is_cut_off()
    {
        Assert.Empty(Take("92.4"));

        Assert.True(_lines.End(out var rest));
        Assert.Equal("92.4", rest);
        Assert.False(_lines.End(out _));
    }

    [Fact]
    public void The_rest_of_a_line_that_comes_too_late_is_never_read_as_a_line()
    {
        Assert.Empty(Take("192."));
        _time.Advance(BareLines.LongestWait + TimeSpan.FromTicks(1));

        Assert.Equal(["cut-off", "92.41"], Take("40\n92.41\n"));
    }

    [Fact]
    public void A_line_may_arrive_slowly()
    {
        Assert.Empty(Take("92."));
        _time.Advance(BareLines.LongestWait);

        Assert.Equal(["92.40"], Take("40\n"));
    }

    /// <summary>Whatever bytes arrive in whatever pieces, they are cut in the same way, and every accepted line is text of a permitted length.</summary>
    [Fact]
    public void Random_bytes_are_cut_the_same_in_any_pieces() =>
        Gen.Select(Gen.Frequency((8, Gen.Char["0123456789,. \t\r\n"]), (1, Gen.Char['\0', '\u00ff'])).Array[0, 900], Gen.Int[1, 300].Array[1, 20])
            .Sample((chars, sizes) =>
        {
            var text = new string(chars);
            var whole = Take(text, new(_time));
            var (lines, pieces) = (new BareLines(_time), new List<string>());
            for (var (at, i) = (0, 0); at < text.Length; at += sizes[i++ % sizes.Length])
            {
                pieces.AddRange(Take(text.Substring(at, Math.Min(sizes[i % sizes.Length], text.Length - at)), lines));
            }

            Assert.Equal(whole, pieces);
            Assert.All(whole, l => Assert.InRange(l.Length, 1, BareLines.LongestLine));
        });

    private List<string> Take(string text) => Take(text, _lines);

    private static List<string> Take(string text, BareLines lines)
    {
        ReadOnlySpan<byte> bytes = Encoding.Latin1.GetBytes(text);
        var taken = new List<string>();
        while (lines.Next(ref bytes, out var line, out var cause))
        {
            taken.Add(cause?.Name() ?? line);
        }

        return taken;
    }
}
