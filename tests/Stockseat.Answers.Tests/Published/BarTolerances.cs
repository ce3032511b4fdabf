namespace Stockseat.Answers.Tests.Published;

/// <summary>
/// Single values, as facts; the standards are copyright of CEN, BSI and ASTM and were not read. They were read where others quote them (pages without dates):
/// <list type="bullet">
/// <item><description>EN 10060:2003: rodacciai.de/normeetabelle.php?pid=8, headed DIN EN 10060:2004; scope, example of a designation and the 75 % at
/// freestandardsdownload.com</description></item>
/// <item><description>EN 10278: evgroupchina.com, ausasteel.com, babasteels.com, lucefin.com, longtonsteel.com; it has the h classes of ISO
/// 286</description></item>
/// <item><description>BS 970-3:1991, bright: actonbrightsteel.co.uk, kvsteel.co.uk, astmsteel.com; BS 970, hot rolled: the first two</description></item>
/// <item><description>ASTM A29: portlandbolt.com, where the table is headed ASTM A6; up to 8 in the same at unifiedalloys.com, headed ASTM A484. That Table
/// A1.1 of A29 is this table is from memory</description></item>
/// <item><description>ASTM A29M-04, table A2.1: lucefin.com</description></item>
/// </list>
/// Millimetres, digits as printed.
/// </summary>
public static class BarTolerances
{
    /// <summary>Name, nominal in mm; plus, minus, out-of-round in mm, the last -1 where the table gives none.</summary>
    public static TheoryData<string, double, double, double, double> Rows => new()
    {
        // EN 10060: the class changes at these listed sizes; out-of-round 75 % of the range: ±0.5 has 0.75 mm.
        { "EN 10060", 10, 0.4, 0.4, 0.6 }, { "EN 10060", 15, 0.4, 0.4, 0.6 }, { "EN 10060", 16, 0.5, 0.5, 0.75 }, { "EN 10060", 25, 0.5, 0.5, 0.75 },
        { "EN 10060", 26, 0.6, 0.6, 0.9 }, { "EN 10060", 35, 0.6, 0.6, 0.9 }, { "EN 10060", 36, 0.8, 0.8, 1.2 }, { "EN 10060", 80, 1.0, 1.0, 1.5 },
        { "EN 10060", 85, 1.3, 1.3, 1.95 }, { "EN 10060", 200, 2.5, 2.5, 3.75 }, { "EN 10060", 250, 4, 4, 6 },
        { "EN 10060", 26.65, 0.6, 0.6, 0.9 }, // the size of a designation's example: no listed one

        // EN 10278 has ISO's h; BS 970 differs from h10 by one micrometre over 18 to 30 mm.
        { "EN 10278 h10", 25, 0, 0.084, -1 }, { "BS 970 drawn", 25, 0, 0.085, -1 }, { "BS 970 turned", 25, 0, 0.085, -1 },
        { "BS 970 drawn", 18, 0, 0.07, -1 }, { "BS 970 drawn", 100, 0, 0.14, -1 }, { "BS 970 turned", 120, 0, 0.14, -1 }, { "BS 970 turned", 401, 0, 0.25, -1 },
        { "BS 970 hot rolled", 16, 0.2, 0.2, 0.3 }, { "BS 970 hot rolled", 76, 0.7, 0.7, 1.1 }, { "BS 970 hot rolled", 76.5, 1.3, 1.3, 2 },
        { "BS 970 hot rolled", 90, 1.3, 1.3, 2 },

        // ASTM A29: up to and including; in inches 0.005 and 0.008, 1/64 and 0.023, 1/32 all over, 1/4.
        { "ASTM A29", 7.9375, 0.127, 0.127, 0.2032 }, { "ASTM A29", 50.8, 0.396875, 0.396875, 0.5842 }, { "ASTM A29", 50.9, 0.79375, 0, 0.5842 },
        { "ASTM A29", 254, 6.35, 0, 3.048 },

        // ASTM A29M: percentages rounded to 0.1 mm; 25 mm has 0.25, a half, which goes up here.
        { "ASTM A29M", 7, 0.13, 0.13, 0.2 }, { "ASTM A29M", 19, 0.2, 0.2, 0.3 }, { "ASTM A29M", 25, 0.3, 0.3, 0.4 }, { "ASTM A29M", 40, 0.4, 0.4, 0.6 },
        { "ASTM A29M", 50, 0.5, 0.5, 0.8 },
    };
}
