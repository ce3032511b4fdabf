using Stockseat.Service.Pages;

namespace Stockseat.Service.Tests.Pages;

/// <summary>Texts that others sent show as texts.</summary>
public sealed class PageEncoderTests
{
    [Theory]
    [InlineData("day setter", "day setter")]
    [InlineData("<script>", "&lt;script&gt;")]
    [InlineData("\"'&", "&quot;&#x27;&amp;")]
    [InlineData("a\u202eb", "a?b")]
    [InlineData("a\u0000\u0007\u001b[2Jb", "a???[2Jb")]
    [InlineData("a\r\nb", "a??b")]
    [InlineData("\u2028\ufeff\u200b", "???")]
    [InlineData("Ø 92", "&#xD8; 92")]
    public void Markup_is_escaped_and_what_hides_or_turns_text_is_replaced(string text, string written) =>
        Assert.Equal(written, PageEncoder.Instance.Encode(text));

    [Fact]
    public void Half_of_a_pair_is_replaced() => Assert.Equal("a&#xFFFD;", PageEncoder.Instance.Encode("a\ud800"));

    [Fact]
    public void A_character_outside_the_basic_plane_is_written_once() => Assert.Equal("&#x1F527;", PageEncoder.Instance.Encode("\U0001F527"));
}
