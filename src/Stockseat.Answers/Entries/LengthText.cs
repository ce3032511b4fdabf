namespace Stockseat.Answers.Entries;

/// <summary>Lengths as texts of refusals state them.</summary>
public static class LengthText
{
    /// <summary>So many decimals show the half of an odd tolerance.</summary>
    private const int FinestDecimals = 9;

    /// <summary>Metres with six decimals.</summary>
    public static string Metres(double metres) => FixedPoint.Text(metres);

    /// <summary>Metres with six decimals, more where it has them: the half of an odd tolerance is no whole micrometre.</summary>
    public static string FineMetres(double metres)
    {
        var text = FixedPoint.Text(metres, FinestDecimals);
        var kept = text.Length - (FinestDecimals - FixedPoint.UsualDecimals);
        return text[..kept] + text[kept..].TrimEnd('0');
    }
}
