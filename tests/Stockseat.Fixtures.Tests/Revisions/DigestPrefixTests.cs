using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Tests.Revisions;

public sealed class DigestPrefixTests
{
    [Theory]
    [InlineData("0123456789ab", "0123456789ab")]
    [InlineData("0123456789ABCDEF", "0123456789abcdef")]
    [InlineData("0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef", "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef")]
    public void Enough_hexadecimal_digits_are_a_prefix(string text, string expected)
    {
        Assert.True(DigestPrefix.TryRead(text, out var prefix));
        Assert.Equal(expected, prefix);
    }

    [Theory]
    [InlineData("")]
    [InlineData("0123456789a")]
    [InlineData("0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef0")]
    [InlineData("0123456789ag")]
    [InlineData(" 0123456789ab")]
    [InlineData("0x0123456789ab")]
    [InlineData("\uff10\uff11\uff12\uff13\uff14\uff15\uff16\uff17\uff18\uff19\uff10\uff11")]
    public void Anything_else_is_not_a_prefix(string text) => Assert.False(DigestPrefix.TryRead(text, out _));
}
