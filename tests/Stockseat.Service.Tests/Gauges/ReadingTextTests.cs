using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

public class ReadingTextTests
{
    private static readonly ReadingPortSettings Port = PipedPort.Usual with { DecimalMark = '.' };
    private static readonly ReadingPortSettings Comma = Port with { DecimalMark = ',' };

    [Theory]
    [InlineData("92.40", "mm", 0.0924)]
    [InlineData("+92.40", "mm", 0.0924)]
    [InlineData("0092.40", "mm", 0.0924)]
    [InlineData("3.638", "in", 0.0924052)]
    [InlineData("92400", "um", 0.0924)]
    [InlineData("10", "m", 10)]
    public void A_reading_is_exact(string text, string unit, double metres) => Reads(metres, text, Port with { Unit = unit });

    [Fact]
    public void The_unit_in_the_line_takes_precedence_over_the_configured_one()
    {
        Assert.Null(ReadingText.Read(new("3.638", "in", null), Port, out var reading));
        Assert.Equal(new(0.0924052, "in", null) { Sent = "3.638 in" }, reading);
    }

    [Fact]
    public void The_lot_in_the_line_takes_precedence_over_the_configured_one()
    {
        Assert.Null(ReadingText.Read(new("92.40", null, "L8"), Port with { Lot = "L7" }, out var reading));
        Assert.Equal("L8", reading.Lot);
        Assert.Equal(PortCause.LotMalformed, ReadingText.Read(new("92.40", null, "L 8"), Port, out _));
    }

    [Fact]
    public void A_comma_is_a_decimal_mark_only_where_it_is_configured()
    {
        Reads(0.0924, "92,40", Comma);
        Is(PortCause.DecimalMark, "92,40", Port);
        Is(PortCause.DecimalMark, "92.40", Comma);
        Is(PortCause.DecimalMark, "1.092,40", Comma);
        Is(PortCause.DecimalMark, "1,092.40", Port);
    }

    [Theory]
    [InlineData("9240", 0.01, 0.0924)]
    [InlineData("924", 0.1, 0.0924)]
    [InlineData("46.2", 2, 0.0924)]
    [InlineData("0.1", 3, 0.0003)]
    public void The_scale_adds_no_rounding_error(string text, double scale, double metres) => Reads(metres, text, Port with { Scale = (decimal)scale });

    [Theory]
    [InlineData("0")]
    [InlineData("0.00")]
    [InlineData("-0.00")]
    [InlineData("-92.40")]
    public void Zero_and_negative_numbers_are_not_readings(string text) => Is(PortCause.NotPositive, text, Port);

    [Theory]
    [InlineData("-----")]
    [InlineData("OL")]
    [InlineData("9999.99E")]
    [InlineData("9e2")]
    [InlineData("9 2")]
    [InlineData("92.")]
    [InlineData(".92")]
    [InlineData("9.2.4")]
    [InlineData("+-92")]
    [InlineData("")]
    [InlineData("92mm")]
    [InlineData("\u0669\u0662")]
    [InlineData("123456789012345678901")]
    public void A_text_that_is_not_a_plain_number_is_not_a_reading(string text) => Is(PortCause.NoNumber, text, Port);

    [Theory]
    [InlineData("92.40m")]
    [InlineData("92.40 m")]
    [InlineData("92.40u")]
    public void A_letter_after_a_number_does_not_count_as_a_unit(string text) => Is(PortCause.NoNumber, text, Port with { Unit = "m" });

    [Fact]
    public void Ten_metres_are_the_maximum()
    {
        Is(PortCause.TooLarge, "10000.01", Port);
        Reads(10, "10000.00", Port);
        Is(PortCause.TooLarge, "99999999999999999999", Port with { Scale = 1_000_000 });
    }

    [Theory]
    [InlineData("yd")]
    [InlineData("MM")]
    public void A_number_with_an_unknown_unit_is_not_a_reading(string unit) =>
        Assert.Equal(PortCause.UnitUnknown, ReadingText.Read(new("92.40", unit, null), Port, out _));

    [Fact]
    public void A_number_without_a_unit_is_not_a_reading() => Is(PortCause.UnitUnknown, "92.40", Port with { Unit = null });

    [Theory]
    [InlineData(0.00003, "50.03", "50.04")]
    [InlineData(0.00003, "49.97", "49.96")]
    [InlineData(null, "50.001", "50.002")]
    public void The_master_is_not_stock(double? within, string master, string stock)
    {
        var port = Port with { MasterMetres = 0.05, MasterWithinMetres = within };

        Is(PortCause.Master, master, port);
        Assert.Null(ReadingText.Read(new(stock, null, null), port, out _));
    }

    private static void Is(PortCause cause, string text, ReadingPortSettings port) => Assert.Equal(cause, ReadingText.Read(new(text, null, null), port, out _));

    private static void Reads(double metres, string text, ReadingPortSettings port)
    {
        Assert.Null(ReadingText.Read(new(text, null, null), port, out var reading));
        Assert.Equal(metres, reading.Metres);
    }
}
