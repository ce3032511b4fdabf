using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Asking;

/// <summary>The newest entries of each fixture, by the group that they belong to.</summary>
public sealed class NewestEntries
{
    /// <summary>Entries that make or void a measurement.</summary>
    public const string Measured = "measured";

    /// <summary>Entries that make older readings useless.</summary>
    public const string Emptied = "emptied";

    /// <summary>Holds.</summary>
    public const string Held = "held";

    /// <summary>Files that were rejected.</summary>
    public const string Rejected = "rejected";

    /// <summary>The group of entries that make or void the measurement of a nest; null: that of the whole fixture.</summary>
    public static string MeasuredAt(int[]? nest) => nest is [var column, var row] ? FormattableString.Invariant($"{Measured} {column},{row}") : Measured;

    private readonly Dictionary<(string Of, string? Fixture), EntryBody> _newest = [];

    /// <summary>Finds the newest entries.</summary>
    /// <param name="entries">Entries, in their order.</param>
    /// <param name="table">The table that knows their kinds.</param>
    public NewestEntries(IEnumerable<EntryBody> entries, VerbTable table)
    {
        foreach (var entry in entries)
        {
            foreach (var of in table.KindOf(entry).NewestOf(entry, table))
            {
                _newest[(of, entry.Fixture)] = entry;
            }
        }
    }

    /// <summary>The newest entry of a fixture; null when there is none.</summary>
    public EntryBody? Find(string of, string? fixture) => _newest.GetValueOrDefault((of, fixture));
}
