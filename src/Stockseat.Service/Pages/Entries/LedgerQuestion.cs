using System.Globalization;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Service.Pages.Entries;

/// <summary>Which entries somebody wants to see: what was typed, and what it means.</summary>
/// <param name="Typed">What was typed into each field; "" is nothing.</param>
/// <param name="Below">The serial below which the page begins.</param>
/// <param name="Filter">Which entries.</param>
/// <param name="Faults">What can't be read.</param>
public sealed record LedgerQuestion(IReadOnlyDictionary<string, string> Typed, long Below, EntryFilter Filter, IReadOnlyList<string> Faults)
{
    /// <summary>The fields of the form.</summary>
    public const string Fixture = "fixture", Kind = "kind", Client = "client", Tag = "tag", Lot = "lot", From = "from", To = "to";

    /// <summary>The serial below which a page begins: the link to older entries names it.</summary>
    public const string BelowKey = "below";

    private static readonly string[] Fields = [Fixture, Kind, Client, Tag, Lot, From, To];

    /// <summary>Whether it leaves anything out.</summary>
    public bool Filters => Typed.Values.Any(v => v.Length > 0);

    /// <summary>The names of all kinds of entries, sorted.</summary>
    public static IReadOnlyList<string> AllKinds { get; } = [.. RegisteredVerbs.Table.Kinds.Select(k => k.Name).Order(StringComparer.Ordinal)];

    /// <summary>Reads it.</summary>
    /// <param name="query">A value of the query; null: none.</param>
    /// <param name="zone">The zone of instants without an offset.</param>
    public static LedgerQuestion Read(Func<string, string?> query, TimeZoneInfo zone)
    {
        var typed = Fields.ToDictionary(f => f, f => query(f)?.Trim() ?? "", StringComparer.Ordinal);
        var faults = new List<string>();
        DateTimeOffset? Instant(string field, string name)
        {
            if (typed[field].Length == 0)
            {
                return null;
            }

            if (InstantText.Read(typed[field], zone, out var at) is not { } fault)
            {
                return at;
            }

            faults.Add($"{name} is '{Refusal.Shown(typed[field])}', which {fault}.");
            return null;
        }

        string? Text(string field) => typed[field] is { Length: > 0 } text ? text : null;
        var below = long.MaxValue;
        if (query(BelowKey) is { } stated && !(long.TryParse(stated, NumberStyles.None, CultureInfo.InvariantCulture, out below) && below > 0))
        {
            faults.Add($"The address says below '{Refusal.Shown(stated)}'; the serial of an entry was expected. Begin again at the newest entries.");
        }

        var filter = new EntryFilter(Text(Fixture), Text(Kind), Text(Client), Text(Tag))
        {
            Lot = Text(Lot), From = Instant(From, "From"), To = Instant(To, "Until"),
        };
        return new(typed, below, filter, faults);
    }

    /// <summary>The address of the page below a serial.</summary>
    public string Older(long below) => "/ledger?" + string.Join('&', Typed.Where(t => t.Value.Length > 0)
        .Append(new(BelowKey, below.ToString(CultureInfo.InvariantCulture))).Select(t => $"{t.Key}={Uri.EscapeDataString(t.Value)}"));
}
