using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>The check of every working can fail.</summary>
public sealed class SoundTests
{
    private static readonly WorkingLine Good = new("R", "the radius", "D / 2", [0.04], "m");

    [Fact]
    public void A_good_line_and_a_sentence_are_sound() => Assert.Empty(Faults(Good, new("", "A sentence.", "", [], "")));

    [Fact]
    public void A_missing_unit_is_found() => Assert.Single(Faults(Good with { Unit = "" }));

    [Fact]
    public void A_unit_that_nobody_knows_is_found() => Assert.Single(Faults(Good with { Unit = "mm" }));

    [Fact]
    public void An_empty_text_is_found() => Assert.Single(Faults(Good with { Text = " " }));

    [Fact]
    public void A_value_that_is_not_finite_is_found() => Assert.Single(Faults(Good with { Values = [double.NaN] }));

    [Fact]
    public void A_symbol_used_twice_is_found() => Assert.Single(Faults(Good, Good));

    [Fact]
    public void A_value_without_a_symbol_is_found() => Assert.Single(Faults(Good with { Symbol = "" }));

    private static IReadOnlyList<string> Faults(params WorkingLine[] lines) => Sound.Faults(new(1, [new("Inputs", lines)]));
}
