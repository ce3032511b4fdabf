using System.Globalization;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Cli.Output.Reviews;

/// <summary>A review's entries as comma-separated values: the columns of an export, and what was found of each.</summary>
internal static class ReviewCsv
{
    /// <summary>All lines.</summary>
    /// <param name="review">The review.</param>
    /// <param name="onTerminal">Whether people look at it.</param>
    public static string Of(Review review, bool onTerminal)
    {
        var answers = review.Answers.ToDictionary(a => a.Answer.Serial);
        var found = review.Findings.SelectMany(f => f.Serials.Select(s => (Serial: s, Rule: f.Rule.Name()))).ToLookup(f => f.Serial, f => f.Rule);
        var lines = review.Entries.Select(e =>
        {
            var a = answers.GetValueOrDefault(e.Serial);
            return EntryCsv.Line(
                EntryView.Of(e.Row), onTerminal, Whole(a?.Before?.Serial),
                a?.ChangeMetres is { } c ? ((decimal)c).ToString(CultureInfo.InvariantCulture) : "", Whole(a?.ConfirmedBy),
                string.Join(' ', found[e.Serial].Distinct()));
        });
        return EntryCsv.HeadWith("answer before,moved by [m],confirmed by,findings") + string.Concat(lines);
    }

    private static string Whole(long? serial) => serial?.ToString(CultureInfo.InvariantCulture) ?? "";
}
