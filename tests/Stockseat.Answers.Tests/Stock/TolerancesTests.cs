using Stockseat.Answers.Stock;
using Stockseat.Answers.Tests.Published;

namespace Stockseat.Answers.Tests.Stock;

public sealed class TolerancesTests
{
    [Theory]
    [MemberData(nameof(Iso286.Worked), MemberType = typeof(Iso286))]
    [MemberData(nameof(Iso286.FromMemory), MemberType = typeof(Iso286))]
    public void A_class_has_its_published_deviations(double mm, string name, double upper, double lower) =>
        Assert.Equal((upper / 1e6, lower / 1e6), Deviations(name, mm));

    [Theory]
    [MemberData(nameof(Iso286.Misprinted), MemberType = typeof(Iso286))]
    public void A_misprint_of_one_reprint_is_not_in_our_table(double mm, string name, double lower) =>
        Assert.Equal((0, lower / 1e6), Deviations(name, mm));

    [Theory]
    [MemberData(nameof(Iso286.AtASize), MemberType = typeof(Iso286))]
    public void A_step_includes_its_own_upper_size(double mm, double um) => Assert.Equal((0, -um / 1e6), Deviations("h8", mm));

    [Fact]
    public void Grades_from_12_on_are_ten_times_the_grades_five_below()
    {
        double[] sizes = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500];
        foreach (var (mm, grade) in sizes.SelectMany(_ => Iso286.TenTimes, (mm, grade) => (mm, grade)))
        {
            Assert.Equal(10 * Deviations($"h{grade - 5}", mm).Lower, Deviations($"h{grade}", mm).Lower, 1e-15);
        }
    }

    [Fact]
    public void An_odd_grade_is_halved_without_rounding() => Assert.Equal((0.0000125, -0.0000125), Deviations("js7", 40));

    [Theory]
    [MemberData(nameof(BarTolerances.Rows), MemberType = typeof(BarTolerances))]
    public void A_mill_tolerance_has_its_published_values(string name, double mm, double plus, double minus, double outOfRound)
    {
        Assert.Null(Tolerances.TryResolve(name, mm / 1000, out var limits));

        Assert.Equal(plus / 1000, limits.PlusMetres, 1e-12);
        Assert.Equal(minus / 1000, limits.MinusMetres, 1e-12);
        Assert.Equal(outOfRound < 0, limits.OutOfRoundMetres is null);
        Assert.Equal(outOfRound < 0 ? 0 : outOfRound / 1000, limits.OutOfRoundMetres ?? 0, 1e-12);
    }

    [Theory]
    [InlineData(50, 0.8)]
    [InlineData(51, 0.8)]
    [InlineData(52, 1.0)]
    [InlineData(84.9, 1.0)]
    [InlineData(249, 3.0)]
    public void Between_two_listed_sizes_the_class_of_the_smaller_one_applies(double mm, double each)
    {
        Assert.Null(Tolerances.TryResolve("EN 10060", mm / 1000, out var limits));

        Assert.Equal(each / 1000, limits.PlusMetres, 1e-12);
    }

    [Theory]
    [InlineData("EN10060", "EN 10060")]
    [InlineData("BS970 hotrolled", "BS 970 hot rolled")]
    [InlineData("EN10278 h11", "h11")]
    [InlineData("ASTMA29M", "ASTM A29M")]
    public void Spaces_of_a_name_may_be_left_out(string text, string name)
    {
        Assert.Null(Tolerances.TryResolve(text, 0.0925, out var one));
        Assert.Null(Tolerances.TryResolve(name, 0.0925, out var other));

        Assert.Equal(other, one);
    }

    [Theory]
    [InlineData("H11")]
    [InlineData("h4")]
    [InlineData("h17")]
    [InlineData("h011")]
    [InlineData("h")]
    [InlineData("j9")]
    [InlineData("g6")]
    [InlineData("h 11")]
    [InlineData("EN 10278")]
    [InlineData("EN 10278 h13")]
    [InlineData("EN 10278 js9")]
    [InlineData("en 10060")]
    [InlineData("EN  10060")]
    [InlineData("EN 100600")]
    [InlineData("BS 970")]
    [InlineData("ASTM A108")]
    [InlineData("")]
    public void An_unknown_name_is_refused_with_the_names_that_are_known(string name)
    {
        var fault = Tolerances.TryResolve(name, 0.05, out var limits);

        Assert.Equal(
            "is not a known tolerance; known are h5 to h16, js5 to js16, k5 to k16 (ISO 286), EN 10060, EN 10278 h6, EN 10278 h7, EN 10278 h8, EN "
            + "10278 h9, EN 10278 h10, EN 10278 h11, EN 10278 h12, BS 970 drawn, BS 970 turned, BS 970 hot rolled, ASTM A29, ASTM A29M", fault);
        Assert.Equal(default, limits);
    }

    [Theory]
    [InlineData("h11", 500.001, "up to 500 mm")]
    [InlineData("EN 10278 h9", 501, "up to 500 mm")]
    [InlineData("js14", 0.9, "from 1 mm in the grades from 14 on")]
    [InlineData("EN 10060", 9.9, "from 10 to 250 mm")]
    [InlineData("EN 10060", 251, "from 10 to 250 mm")]
    [InlineData("BS 970 drawn", 6, "over 6 mm, up to 100 mm")]
    [InlineData("BS 970 drawn", 100.5, "over 6 mm, up to 100 mm")]
    [InlineData("BS 970 turned", 5, "over 6 mm;")]
    [InlineData("ASTM A29", 254.1, "up to 10 in")]
    [InlineData("ASTM A29M", 251, "up to 250 mm")]
    public void A_size_beyond_the_table_is_a_fault(string name, double mm, string covered)
    {
        var fault = Tolerances.TryResolve(name, mm / 1000, out _);

        Assert.StartsWith(
            $"has no value for a nominal of {mm.ToString(System.Globalization.CultureInfo.InvariantCulture)} mm: {name} covers nominal diameters ",
            fault, StringComparison.Ordinal);
        Assert.Contains(covered, fault, StringComparison.Ordinal);
    }

    private static (double Upper, double Lower) Deviations(string name, double mm)
    {
        Assert.Null(Tolerances.TryResolve(name, mm / 1000, out var limits));
        return (limits.PlusMetres, -limits.MinusMetres);
    }
}
