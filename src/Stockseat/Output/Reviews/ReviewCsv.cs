using System.Globalization;
using Stockseat.Audit.Reviewing;
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
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var numbers = review.Findings.SelectMany((f, i) => f.Serials.Select(s => (Serial: s, Number: i + 1))).ToLookup(f => f.Serial, f => f.Number);
        var notes = NotePlaces.Of(review);
        using (var csv = new EntryCsv(
            text, onTerminal, "answer before", "moved by [m]", "confirmed by", "findings", "finding numbers", "may be off by [m]", "notes"))
        {
            foreach (var e in review.Entries)
            {
                var a = answers.GetValueOrDefault(e.Serial);
                var moved = Metres(a?.ChangeMetres);
                csv.Add(
                    e.Row, Whole(a?.Before?.Serial), moved, Whole(a?.ConfirmedBy), string.Join(' ', found[e.Serial].Distinct()),
                    string.Join(' ', numbers[e.Serial]), Metres(review.Findings.Where(f => f.Serials.Contains(e.Serial)).Max(f => f.MovedMetres)),
                    string.Join(' ', notes[e.Serial].Select(n => n.Serial)));
            }
        }

        return text.ToString();
    }

    private static string Metres(double? metres) => metres is { } m ? ((decimal)m).ToString(CultureInfo.InvariantCulture) : "";

    private static string Whole(long? serial) => serial?.ToString(CultureInfo.InvariantCulture) ?? "";
}
