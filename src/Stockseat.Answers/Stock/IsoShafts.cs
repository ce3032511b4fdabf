using System.Globalization;

namespace Stockseat.Answers.Stock;

/// <summary>
/// Shaft classes of ISO 286: h (all minus), js (half each way, not rounded) and k, grades IT5 to IT16, nominal diameters up to 500 mm.
/// The table is written out, not computed: no rounding of the formula 0.45·D^(1/3) + 0.001·D gives all of its cells.
/// </summary>
internal static class IsoShafts
{
    private const int FirstGrade = 5;
    private const int LastGrade = 16;

    /// <summary>From this grade on, class k lies above the nominal: its least deviation is 0.</summary>
    private const int AllPlusGrade = 8;

    /// <summary>From this grade on there are no classes below 1 mm (from memory: a note of the table of ISO 286-1).</summary>
    private const int CoarseGrade = 14;

    /// <summary>
    /// ISO 286-1:2010, Table 1, read where it is reprinted (Iso286, in this project's tests, has the addresses): each step is over the size before, up to and
    /// including its own size in mm; IT5 to IT16 in micrometres. LeastOfK: the least deviation of k5 to k7, in micrometres, from memory of ISO 286-2.
    /// </summary>
    private static readonly (int UpToMm, int LeastOfK, int[] Grades)[] Steps =
    [
        (3, 0, [4, 6, 10, 14, 25, 40, 60, 100, 140, 250, 400, 600]),
        (6, 1, [5, 8, 12, 18, 30, 48, 75, 120, 180, 300, 480, 750]),
        (10, 1, [6, 9, 15, 22, 36, 58, 90, 150, 220, 360, 580, 900]),
        (18, 1, [8, 11, 18, 27, 43, 70, 110, 180, 270, 430, 700, 1100]),
        (30, 2, [9, 13, 21, 33, 52, 84, 130, 210, 330, 520, 840, 1300]),
        (50, 2, [11, 16, 25, 39, 62, 100, 160, 250, 390, 620, 1000, 1600]),
        (80, 2, [13, 19, 30, 46, 74, 120, 190, 300, 460, 740, 1200, 1900]),
        (120, 3, [15, 22, 35, 54, 87, 140, 220, 350, 540, 870, 1400, 2200]),
        (180, 3, [18, 25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600, 2500]),
        (250, 4, [20, 29, 46, 72, 115, 185, 290, 460, 720, 1150, 1850, 2900]),
        (315, 4, [23, 32, 52, 81, 130, 210, 320, 520, 810, 1300, 2100, 3200]),
        (400, 4, [25, 36, 57, 89, 140, 230, 360, 570, 890, 1400, 2300, 3600]),
        (500, 5, [27, 40, 63, 97, 155, 250, 400, 630, 970, 1550, 2500, 4000]),
    ];

    /// <summary>Reads a class such as h11; false when the text is not a class.</summary>
    public static bool TryRead(string text, out string letters, out int grade)
    {
        letters = text.TrimEnd("0123456789".ToCharArray());
        var digits = text[letters.Length..];
        grade = digits.Length is 1 or 2 && digits[0] != '0' ? int.Parse(digits, CultureInfo.InvariantCulture) : 0;
        return letters is "h" or "js" or "k" && grade is >= FirstGrade and <= LastGrade;
    }

    /// <summary>The deviations of a class.</summary>
    /// <param name="letters">h, js or k.</param>
    /// <param name="grade">5 to 16.</param>
    /// <param name="nominalMetres">The nominal diameter in metres, above 0.</param>
    /// <param name="limits">The deviations.</param>
    /// <returns>Null, or why there are none for that nominal.</returns>
    public static string? Resolve(string letters, int grade, double nominalMetres, out ToleranceLimits limits)
    {
        limits = default;
        var mm = MillTolerances.Millimetres(nominalMetres);
        var at = Array.FindIndex(Steps, s => mm <= s.UpToMm);
        if (at < 0)
        {
            return $"covers nominal diameters up to {Steps[^1].UpToMm} mm";
        }

        if (grade >= CoarseGrade && mm < 1)
        {
            return $"covers nominal diameters from 1 mm in the grades from {CoarseGrade} on";
        }

        var (it, least) = (Steps[at].Grades[grade - FirstGrade], grade < AllPlusGrade ? Steps[at].LeastOfK : 0);
        limits = letters switch
        {
            "h" => new(0, it / 1e6),
            "js" => new(it / 2e6, it / 2e6),
            _ => new((it + least) / 1e6, -least / 1e6),
        };
        return null;
    }
}
