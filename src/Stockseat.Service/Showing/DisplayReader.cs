using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Showing;

/// <summary>Reads how people are shown lengths, times and pages: the section Display.</summary>
public static class DisplayReader
{
    /// <summary>The section's name.</summary>
    internal const string Section = "Display";

    private const string Local = "local";

    /// <summary>Reads what a command without a configuration file goes by: the command line over the environment over the defaults.</summary>
    /// <param name="stated">What the command line says.</param>
    /// <param name="environment">The environment's variables.</param>
    /// <param name="faults">What is wrong with them.</param>
    public static Display Read(DisplayOverrides stated, IReadOnlyDictionary<string, string> environment, out IReadOnlyList<string> faults)
    {
        var values = new SettingValues(null, environment);
        var display = Read(values, null, stated);
        faults = values.Faults.All;
        return display;
    }

    /// <summary>Reads the section; a value that is none of those expected is a fault.</summary>
    internal static Display Read(SettingValues values, Section? section, DisplayOverrides? stated)
    {
        var length = One(values, section, "Length", LengthUnit.Millimetre.Symbol, stated?.Length, LengthUnit.Find, "mm or in was expected");
        var zone = One(
            values, section, "Zone", Local, stated?.Zone, Zone,
            "local, UTC or the name of a time zone that this machine knows, such as Europe/Paris or America/Chicago, was expected");
        var paper = One(values, section, "Paper", PaperSize.A4.Name, stated?.Paper, PaperSize.Find, "A4 or Letter was expected");
        section?.Finish();
        return new(length ?? LengthUnit.Millimetre, zone ?? TimeZoneInfo.Utc, paper ?? PaperSize.A4);
    }

    private static T? One<T>(SettingValues values, Section? section, string key, string usual, string? stated, Func<string, T?> find, string expected)
        where T : class
    {
        var (text, _) = values.Text(section, key, $"{Section}:{key}", usual, stated);
        var found = find(text);
        if (found is null)
        {
            values.Faults.Add($"{Section}:{key}", $"is \"{text}\"; {expected}");
        }

        return found;
    }

    private static TimeZoneInfo? Zone(string text) => text == Local ? TimeZoneInfo.Local : text == "UTC" ? TimeZoneInfo.Utc
        : text.All(c => char.IsAsciiLetterOrDigit(c) || c is '/' or '_' or '-' or '+') && TimeZoneInfo.TryFindSystemTimeZoneById(text, out var zone) ? zone
        : null;
}
