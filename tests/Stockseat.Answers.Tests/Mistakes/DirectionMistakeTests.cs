using Stockseat.Answers.Tests.Advising;

namespace Stockseat.Answers.Tests.Mistakes;

/// <summary>Plausible mistakes in the directions of a revision: each test makes one and shows what catches it.</summary>
public sealed class DirectionMistakeTests
{
    private const string Nest = "\"pins\": { \"spacing\": \"40 mm\", \"diameter\": \"12.7 mm\", \"between\": \"centres\" }";
    private const string Frame = "\"frame\": { \"aboutZ\": \"-20 deg\", \"thenY\": \"0 deg\", \"thenX\": \"25 deg\" }";
    private const string Tool = "\"aboutZ\": \"-20 deg\", \"thenY\": \"0 deg\", \"thenX\": \"205 deg\"";

    /// <summary>The seat axis and the normal of that bed, in base: −20° about z, then a slope of 25°.</summary>
    private static readonly double[] V = [0.3099755193, 0.8516507396, 0.4226182617], W = [-0.1445439588, -0.3971312619, 0.9063077870];

    [Fact]
    public void The_two_equal_pins_swapped()
    {
        var (left, right) = (Pin(-20, 12.7), Pin(20, 12.7));
        var swapped = Mistake.Between([(Nest, Locators(left, right))], [(Nest, Locators(right, left))]);

        Assert.Empty(swapped.Sentences); // It is harmless: nothing differs.
    }

    [Fact]
    public void Unequal_pins_mirrored()
    {
        var mirrored = Mistake.Between([(Nest, Locators(Pin(-22, 10), Pin(18, 16)))], [(Nest, Locators(Pin(-18, 16), Pin(22, 10)))]);

        mirrored.IsStated("when the diameter grows by 1 mm");
        mirrored.IsFoundByProving();
    }

    [Fact]
    public void The_normal_flipped()
    {
        var flipped = Mistake.Of((Frame, Vectors(V, Minus(W))));

        flipped.IsAdvised("taught.orientation", "180 deg from the way into the plan");
        flipped.IsStated("the tool's z axis points squarely OUT of the plan");
        flipped.IsStated("5 columns, 75 mm apart, run mostly towards -x");
        flipped.IsFoundByProving();
    }

    [Fact]
    public void The_seat_axis_flipped()
    {
        var flipped = Mistake.Of((Frame, Vectors(Minus(V), W)));

        flipped.IsAdvised("frame", "points 25 deg downward");
        flipped.IsStated("the seat axis FALLS 25 deg below level");
        flipped.IsStated("3 rows, 90 mm apart, run mostly towards -y");
        flipped.IsFoundByProving();
    }

    [Fact]
    public void Seat_axis_and_normal_swapped()
    {
        var swapped = Mistake.Of((Frame, Vectors(W, V)));

        swapped.IsAdvised("frame", "Check whether seat axis and normal are swapped");
        swapped.IsStated("the tool's z axis points ALONG the plan");
        swapped.IsStated("the seat axis rises 65 deg above level");
        swapped.IsFoundByProving();
    }

    [Fact]
    public void The_tilt_with_the_wrong_sign()
    {
        var wrong = Mistake.Of((Frame, Frame.Replace("\"25 deg\"", "\"-25 deg\"", StringComparison.Ordinal)));

        wrong.IsAdvised("frame", "points 25 deg downward");
        wrong.IsStated("the seat axis FALLS 25 deg below level");
        wrong.IsFoundByProving();
    }

    [Fact]
    public void The_tool_pointing_out_of_the_bed()
    {
        var wrong = Mistake.Of((Tool, Tool.Replace("205 deg", "25 deg", StringComparison.Ordinal)));

        wrong.IsAdvised("taught.orientation", "180 deg from the way into the plan");
        wrong.IsStated("squarely OUT of the plan");
    }

    /// <summary>No advice: a turn of either sign is as usual as the other.</summary>
    [Fact]
    public void The_turn_with_the_wrong_sign()
    {
        var wrong = Mistake.Of((Frame, Frame.Replace("-20 deg", "20 deg", StringComparison.Ordinal)));

        wrong.IsStated("5 columns, 75 mm apart, run mostly towards +x: x +0.940, y +0.342");
        wrong.IsFoundByProving();
    }

    [Fact]
    public void Cosines_typed_with_two_digits()
    {
        (string, string)[] level =
        [
            (Tool, Tool.Replace("205 deg", "180 deg", StringComparison.Ordinal)),
            ("\"revision\": 1,", "\"revision\": 1, \"seatedBy\": \"push\","),
        ];
        var rounded = Mistake.Between(
            [.. level, (Frame, Frame.Replace("25 deg", "0 deg", StringComparison.Ordinal))], [.. level, (Frame, Vectors([0.34, 0.94, 0], [0, 0, 1]))]);

        rounded.IsAdvised("frame.seatAxis", "rounded so that its direction may be");
        rounded.IsFoundByProving();
    }

    [Fact]
    public void Degrees_typed_for_radians_in_the_orientation()
    {
        var wrong = Mistake.Of((Tool, Tool.Replace("205 deg", "3.58 deg", StringComparison.Ordinal)));

        wrong.IsAdvised("taught.orientation", "from the way into the plan");
        wrong.IsStated("OUT of the plan");
    }

    [Fact]
    public void Radians_typed_for_degrees_in_the_orientation() => SizeMistakeTests.Faulty(
        (Tool, Tool.Replace("205 deg", "205 rad", StringComparison.Ordinal)), "taught.orientation.thenX");

    private static double[] Minus(double[] a) => [.. a.Select(x => -x)];

    private static string Vectors(double[] v, double[] w) => FormattableString.Invariant(
        $"\"frame\": {{ \"seatAxis\": {{ \"x\": {v[0]}, \"y\": {v[1]}, \"z\": {v[2]} }}, \"normal\": {{ \"x\": {w[0]}, \"y\": {w[1]}, \"z\": {w[2]} }} }}");

    private static string Pin(double u, double diameter) =>
        FormattableString.Invariant($"{{ \"pin\": {{ \"u\": \"{u} mm\", \"v\": \"0 mm\", \"diameter\": \"{diameter} mm\" }} }}");

    private static string Locators(string one, string other) => $"\"locators\": [ {one}, {other} ]";
}
