namespace Stockseat.Answers.Tests.Published;

/// <summary>
/// Origin: ISO 286-1 and ISO 286-2 (1988, 2010), ISO code system for tolerances. Licence: copyright ISO; single values only, as facts.
/// The standards were not read. The table was read where it is reprinted: azom.com, ArticleID=1153 (to 500 mm), compared with
/// engineersvault.blogspot.com/2007/02 (IT1 to IT14, to 315 mm) and evgroupchina.com (h6 to h12, to 200 mm). Printed in whole micrometres: no tolerance is
/// needed.
/// </summary>
public static class Iso286
{
    /// <summary>
    /// Nominal in mm, class, upper and lower deviation in micrometres: examples in words. They were read, but the page of most was not noted: take those as
    /// from memory.
    /// </summary>
    public static TheoryData<double, string, double, double> Worked => new()
    {
        { 45, "h9", 0, -62 },
        { 45, "js9", 31, -31 },
        { 45, "k9", 62, 0 },
        { 25.4, "h9", 0, -52 },
        { 38.1, "js10", 50, -50 },
        { 160, "k14", 1000, 0 }, // azom.com, ArticleID=1153
        { 20, "h9", 0, -52 },    // given as a least size of 19.948 mm, for EN 10278
        { 10, "h14", 0, -360 },  // IT14 at 10 mm and at 100 mm: Wikipedia, "IT Grade"
        { 100, "h14", 0, -870 },
    };

    /// <summary>
    /// Where one reprint of the table has a misprint, what the other reprints have: nominal in mm, class, lower deviation in micrometres.
    /// </summary>
    public static TheoryData<double, string, double> Misprinted => new()
    {
        { 2, "h6", -6 },       // printed 7: zh-ss.net, rightonblackburns.co.uk
        { 2, "h7", -10 },      // printed 9: the same two
        { 2, "h12", -100 },    // printed 90: the same two
        { 40, "h8", -39 },     // printed without its sign: precisemetal.in
        { 25, "h6", -13 },     // printed 30: deepri.com
        { 5, "h9", -30 },      // printed without its sign: stalma.com.pl
        { 450, "h16", -4000 }, // printed 4: azom.com
    };

    /// <summary>
    /// Steps are "over A up to and including B": nominal in mm, IT8 in micrometres on both sides of a size, from the table at azom.com.
    /// </summary>
    public static TheoryData<double, double> AtASize => new()
    {
        { 3, 14 }, { 3.001, 18 }, { 18, 27 }, { 18.001, 33 }, { 50, 39 }, { 50.001, 46 }, { 80, 46 }, { 120, 54 }, { 120.001, 63 }, { 500, 97 },
    };

    /// <summary>k6 and k7 in the preferred classes of ISO 286-2, from memory: nominal in mm, class, upper and lower deviation in micrometres.</summary>
    public static TheoryData<double, string, double, double> FromMemory => new()
    {
        { 2, "k6", 6, 0 }, { 5, "k6", 9, 1 }, { 15, "k6", 12, 1 }, { 25, "k6", 15, 2 }, { 40, "k6", 18, 2 }, { 60, "k6", 21, 2 },
        { 100, "k6", 25, 3 }, { 150, "k6", 28, 3 }, { 200, "k6", 33, 4 }, { 450, "k6", 45, 5 }, { 40, "k7", 27, 2 }, { 25, "k5", 11, 2 },
    };

    /// <summary>
    /// Formula of ISO 286-1:1988, Annex A: multiples of i from IT6 on go up tenfold at each fifth grade. Read at engineersedge.com and slidepub.com.
    /// </summary>
    public static int[] TenTimes => [12, 13, 14, 15, 16];
}
