using Stockseat.Service.Texts;

namespace Stockseat.Service.Tests.Texts;

/// <summary>The word that was meant is named when it is near, and no other.</summary>
public sealed class NearestWordTests
{
    private static readonly string[] Verbs = ["hello", "measured", "locate", "confirm", "emptied", "status", "help", "bye"];

    [Theory]
    [InlineData("locat", "locate")]
    [InlineData("LOCATE", "locate")]
    [InlineData("loacte", "locate")]
    [InlineData("messured", "measured")]
    [InlineData("con", "confirm")]
    [InlineData("hel", "help")]
    [InlineData("", null)]
    [InlineData("x", null)]
    [InlineData("relocation", null)]
    [InlineData("whereis", null)]
    public void One_near_word_is_named(string typed, string? meant) => Assert.Equal(meant is null ? [] : [meant], NearestWord.Of(typed, Verbs));

    [Fact]
    public void Words_that_are_equally_near_are_all_named_when_they_are_few() =>
        Assert.Equal("; did you mean 'cell-1' or 'cell-2'?", NearestWord.Hint("cell-3", ["cell-1", "cell-2"]));

    [Fact]
    public void Too_many_equally_near_words_are_no_help() =>
        Assert.Equal("", NearestWord.Hint("cell-9", ["cell-1", "cell-2", "cell-3", "cell-4"]));

    [Theory]
    [InlineData("MM", "mm")]
    [InlineData("millimeters", "mm")]
    [InlineData("\u00b5m", "um")]
    [InlineData("inches", "in")]
    [InlineData("\"", "in")]
    public void A_unit_that_is_only_written_otherwise_is_named(string typed, string unit) =>
        Assert.Equal($"; did you mean '{unit}'?", UnitText.Hint(typed));

    [Theory]
    [InlineData("cm")]
    [InlineData("nm")]
    [InlineData("ft")]
    [InlineData("mn")]
    public void A_unit_that_is_another_one_is_never_taken_for_ours(string typed) => Assert.Equal("", UnitText.Hint(typed));
}
