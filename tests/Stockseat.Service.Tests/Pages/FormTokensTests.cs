using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Pages;

namespace Stockseat.Service.Tests.Pages;

public sealed class FormTokensTests
{
    private readonly FakeTimeProvider _time = new();
    private readonly FormTokens _tokens;

    public FormTokensTests() => _tokens = new(_time);

    [Fact]
    public void A_token_holds_for_its_client_and_its_page_only()
    {
        var token = _tokens.Make("bench", "/hold/pinbed-1");

        Assert.True(_tokens.IsGood(token, "bench", "/hold/pinbed-1"));
        Assert.False(_tokens.IsGood(token, "bench", "/hold/veerack-2"));
        Assert.False(_tokens.IsGood(token, "office", "/hold/pinbed-1"));
        Assert.False(new FormTokens(_time).IsGood(token, "bench", "/hold/pinbed-1"));
    }

    [Fact]
    public void A_token_holds_for_its_life_even_when_the_clock_is_set()
    {
        var token = _tokens.Make("bench", "/");
        _time.Advance(FormTokens.Life);
        Assert.True(_tokens.IsGood(token, "bench", "/"));

        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.False(_tokens.IsGood(token, "bench", "/"));
    }

    [Fact]
    public void A_token_of_which_any_character_was_changed_is_not_good()
    {
        var token = _tokens.Make("bench", "/");

        Assert.All(Enumerable.Range(0, token.Length), i =>
        {
            var changed = token[..i] + (token[i] == '1' ? '2' : '1') + token[(i + 1)..];
            Assert.False(_tokens.IsGood(changed, "bench", "/"), changed);
        });
        Assert.All(["", ".", "..", "a.b.c", token + ".", "." + token, token[..^1]], t => Assert.False(_tokens.IsGood(t, "bench", "/"), t));
    }

    [Fact]
    public void Each_form_has_an_id_of_its_own_and_keeps_it_when_it_is_shown_again()
    {
        var (one, other) = (FormTokens.RequestOf(_tokens.Make("bench", "/")), FormTokens.RequestOf(_tokens.Make("bench", "/")));

        Assert.NotEqual(one, other);
        Assert.Matches("^page-[0-9a-f]{32}$", one);
        Assert.Equal(one, FormTokens.RequestOf(_tokens.Make("bench", "/", one)));
    }

    [Theory]
    [InlineData("1.h-1.x")] // An id that a program gave.
    [InlineData("1.page-<b>.x")]
    [InlineData("1.page-1.x.y")]
    [InlineData("")]
    public void An_id_that_no_form_has_is_not_taken(string token) => Assert.Equal("", FormTokens.RequestOf(token));
}
