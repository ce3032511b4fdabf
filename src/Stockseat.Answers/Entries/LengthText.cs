namespace Stockseat.Answers.Entries;

/// <summary>Lengths as the texts of refusals show them.</summary>
public static class LengthText
{
    /// <summary>With this many decimals, half of an odd tolerance can be shown.</summary>
    private const int FinestDecimals = 9;

    /// <summary>Metres with six decimals.</summary>
    public static string Metres(double metres) => FixedPoint.Text(metres);

    /// <summary>Metres with six decimals, or with more where needed: half of an odd tolerance is not a whole number of micrometres.</summary>
    public static string FineMetres(double metres)
    {
        var text = FixedPoint.Text(metres, FinestDecimals);
        var kept = text.Length - (FinestDecimals - FixedPoint.UsualDecimals);
        return text[..kept] + text[kept..].TrimEnd('0');
    }
}
