namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: Precision Locating and Dividing Methods, Machinery's Reference Series, Industrial Press. Edition: early 1900s, the page with the year was not seen.
/// Licence: public domain, assumed. Read (bitlit.ru, page 5), not from memory. Inches: three discs in contact and the distances of their centres.
/// </summary>
public static class PrecisionLocating
{
    public static (double A, double B, double C) Diameters => (1.070, 0.790, 0.650);

    public static (double AB, double BC, double AC) Distances => (0.930, 0.720, 0.860);
}
