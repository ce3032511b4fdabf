using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>Values worked out by hand, by section and symbol, compared with the values of a working.</summary>
internal sealed class ByHand
{
    private readonly Dictionary<(string Title, string Symbol), double[]> _values = [];

    public ByHand Put(string title, string symbol, params double[] values)
    {
        _values.Add((title, symbol), values);
        return this;
    }

    public ByHand Put(string title, PlainSeat seat)
    {
        foreach (var (symbol, values) in seat.Lines)
        {
            Put(title, symbol, values);
        }

        return this;
    }

    /// <summary>Every line with a formula in these sections is listed here, or is the difference of two lines before it; and every value agrees.</summary>
    public void Check(Working working, params string[] titles)
    {
        var shown = new Dictionary<string, double>();
        foreach (var section in working.Sections)
        {
            foreach (var line in section.Lines.Where(l => l.Values.Count > 0))
            {
                if (_values.TryGetValue((section.Title, line.Symbol), out var hand))
                {
                    Close(hand, line, $"{section.Title}: {line.Symbol}");
                }
                else if (line.Formula.Length > 0 && titles.Contains(section.Title))
                {
                    Assert.True(
                        line.Formula == line.Symbol && line.Symbol.Contains(" - ", StringComparison.Ordinal),
                        $"{section.Title}: {line.Symbol} = {line.Formula} is not worked out by hand");
                    var at = line.Symbol.IndexOf(" - ", StringComparison.Ordinal);
                    Close([shown[line.Symbol[..at]] - shown[line.Symbol[(at + 3)..]]], line, $"{section.Title}: {line.Symbol}");
                }

                shown[line.Symbol] = line.Values[0];
            }
        }

        Assert.All(_values.Keys, k => Assert.Contains(working.Section(k.Title).Lines, l => l.Symbol == k.Symbol));
    }

    private static void Close(double[] expected, WorkingLine line, string what)
    {
        Assert.True(expected.Length == line.Values.Count, $"{what}: {line.Values.Count} values");

        // Degrees come from arc cosines here, which lose some digits: 1e-11 deg is 2e-13 rad.
        var tolerance = line.Unit == "deg" ? 1e-11 : 1e-14;
        for (var i = 0; i < expected.Length; i++)
        {
            var actual = line.Values[i];
            Assert.True(
                Math.Abs(expected[i] - actual) <= tolerance * Math.Max(1, Math.Abs(expected[i])),
                $"{what}[{i}]: by hand {expected[i]:R}, worked out {actual:R}");
        }
    }
}
