using System.Globalization;

namespace Stockseat.Answers.Stock;

/// <summary>Tolerances by name: shaft classes of ISO 286, and the tolerances by which mills supply bar.</summary>
public static class Tolerances
{
    /// <summary>Bright bar has the h classes of ISO 286; these are the grades that EN 10278 uses.</summary>
    private const int FirstBright = 6;

    private const int LastBright = 12;

    private static readonly (string Name, Rule Rule)[] Named =
    [
        ("EN 10060", MillTolerances.OfEn10060),
        .. Enumerable.Range(FirstBright, LastBright - FirstBright + 1)
            .Select(grade => ($"EN 10278 h{grade.ToString(CultureInfo.InvariantCulture)}", Bright(grade))),
        ("BS 970 drawn", MillTolerances.OfBs970Drawn),
        ("BS 970 turned", MillTolerances.OfBs970Turned),
        ("BS 970 hot rolled", MillTolerances.OfBs970HotRolled),
        ("ASTM A29", MillTolerances.OfA29),
        ("ASTM A29M", MillTolerances.OfA29M),
    ];

    private delegate string? Rule(double nominalMetres, out ToleranceLimits limits);

    /// <summary>The known tolerances, in words.</summary>
    public static string Known { get; } = $"h5 to h16, js5 to js16, k5 to k16 (ISO 286), {string.Join(", ", Named.Select(n => n.Name))}";

    /// <summary>The limits of a tolerance for a nominal diameter.</summary>
    /// <param name="text">Its name as listed; the spaces may be left out. Capital and small letters differ: H is a class of holes.</param>
    /// <param name="nominalMetres">The nominal diameter in metres, above 0 and up to 10 m.</param>
    /// <param name="limits">The limits.</param>
    /// <returns>Null, or why there are none.</returns>
    public static string? TryResolve(string text, double nominalMetres, out ToleranceLimits limits)
    {
        limits = default;
        if (IsoShafts.TryRead(text, out var letters, out var grade))
        {
            return Said(text, IsoShafts.Resolve(letters, grade, nominalMetres, out limits), nominalMetres);
        }

        var at = Array.FindIndex(Named, n => Matches(text, n.Name));
        return at < 0
            ? $"is not a known tolerance; known are {Known}"
            : Said(Named[at].Name, Named[at].Rule(nominalMetres, out limits), nominalMetres);
    }

    private static Rule Bright(int grade) => (double nominal, out ToleranceLimits limits) => IsoShafts.Resolve("h", grade, nominal, out limits);

    private static string? Said(string name, string? fault, double nominalMetres) => fault is null
        ? null
        : string.Create(
            CultureInfo.InvariantCulture,
            $"has no value for a nominal of {MillTolerances.Millimetres(nominalMetres):0.######} mm: {name} {fault}; state plus and minus instead");

    private static bool Matches(string text, string name)
    {
        var at = 0;
        foreach (var c in name)
        {
            if (at < text.Length && text[at] == c)
            {
                at++;
            }
            else if (c != ' ')
            {
                return false;
            }
        }

        return at == text.Length;
    }
}
