using System.Globalization;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;

namespace Stockseat.Service.Pages.Reviews;

/// <summary>Which minutes somebody wants to see: what was typed, and what it means.</summary>
/// <param name="Typed">What was typed into each field.</param>
/// <param name="Question">What is asked; null: nothing yet, or something is wrong.</param>
/// <param name="Faults">What can't be read.</param>
public sealed record ReviewForm(IReadOnlyDictionary<string, string> Typed, ReviewQuestion? Question, IReadOnlyList<string> Faults)
{
    /// <summary>The fields of the form.</summary>
    public const string At = "at", Before = "before", After = "after", Fixture = "fixture", Cell = "cell";

    /// <summary>The most minutes on one side: a week.</summary>
    public const int MostMinutes = 7 * 24 * 60;

    /// <summary>Reads it.</summary>
    /// <param name="query">A value of the query; null: none.</param>
    /// <param name="zone">The zone of instants without an offset.</param>
    public static ReviewForm Read(Func<string, string?> query, TimeZoneInfo zone)
    {
        string Text(string field) => query(field)?.Trim() ?? "";
        var typed = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            [At] = Text(At), [Before] = Minutes(query(Before)?.Trim(), ReviewQuestion.UsualBefore), [Fixture] = Text(Fixture),
            [After] = Minutes(query(After)?.Trim(), ReviewQuestion.UsualAfter), [Cell] = Text(Cell),
        };
        if (typed[At].Length == 0)
        {
            return new(typed, null, []);
        }

        var faults = new List<string>();
        var (serial, at) = AtOf(typed[At], zone, faults);
        var question = new ReviewQuestion
        {
            Serial = serial, At = serial is null ? at : null, Before = Span(Before, "Minutes before"), After = Span(After, "Minutes after"),
            Fixture = typed[Fixture] is { Length: > 0 } fixture ? fixture : null, Cell = typed[Cell] is { Length: > 0 } cell ? cell : null,
        };
        return new(typed, faults.Count > 0 ? null : question, faults);

        TimeSpan Span(string field, string name)
        {
            if (int.TryParse(typed[field], NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) && minutes <= MostMinutes)
            {
                return TimeSpan.FromMinutes(minutes);
            }

            faults.Add($"{name} is '{Refusal.Shown(typed[field])}'; a whole number from 0 to {MostMinutes} was expected.");
            return default;
        }
    }

    /// <summary>The query that asks for the same again.</summary>
    public string Query => "?" + string.Join('&', Typed.Where(t => t.Value.Length > 0).Select(t => $"{t.Key}={Uri.EscapeDataString(t.Value)}"));

    /// <summary>An entry, as its serial, or an instant.</summary>
    public static (long? Serial, DateTimeOffset? Instant) AtOf(string typed, TimeZoneInfo zone, List<string> faults)
    {
        if (typed.All(char.IsAsciiDigit) && long.TryParse(typed, NumberStyles.None, CultureInfo.InvariantCulture, out var serial) && serial > 0)
        {
            return (serial, null);
        }

        if (InstantText.Read(typed, zone, out var at) is not { } fault)
        {
            return (null, at);
        }

        faults.Add($"'{Refusal.Shown(typed)}' {fault}, or the serial of an entry, such as 1042.");
        return (null, null);
    }

    private static string Minutes(string? typed, TimeSpan usual) =>
        typed is { Length: > 0 } ? typed : usual.TotalMinutes.ToString("0", CultureInfo.InvariantCulture);
}
