using System.Globalization;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Service.Examining;

/// <summary>Whether the end of the ledger is intact, whether the service stopped cleanly, and whether the clock is behind the last entry.</summary>
internal static class LedgerCheck
{
    private const string About = "ledger";

    /// <summary>How many entries are looked at: more than an hour of a busy cell, and read in a moment.</summary>
    private const int Looked = 1000;

    /// <summary>How many entries follow a clean stop at most: its seal.</summary>
    private const int AtTheEnd = 3;

    /// <summary>Clocks that differ by less count as the same.</summary>
    private static readonly TimeSpan Same = TimeSpan.FromSeconds(1);

    public static IEnumerable<Finding> Look(Examined examined)
    {
        var data = examined.Settings.Ledger.Data;
        if (!File.Exists(Path.Combine(data, LedgerFile.Name)))
        {
            yield return Finding.Good(About, "there is none yet; it begins with the first start");
            yield break;
        }

        using var reader = LedgerReader.Open(data);
        var last = reader.Last;
        if (reader.Find(last) is not { } newest)
        {
            yield return Finding.Good(About, $"{data} has a ledger without an entry");
            yield break;
        }

        var first = Math.Max(reader.First, last - Looked + 1);
        var when = EntryTime.TryParse(newest.At, out var at) ? examined.Settings.Display.Times.Second(at) : newest.At;
        yield return Broken(reader, first, last) is { } serial
            ? Finding.Fault(About, $"entry {serial} does not follow from the entry before it: the ledger was changed or damaged; do not start a service on it, "
                + "make a copy, and see what is wrong: stockseat ledger verify --data DIR")
            : Finding.Good(About, string.Create(
                CultureInfo.InvariantCulture, $"its last entry is {last}, of {when}; entries {first} to {last} follow from one another"));
        if (!examined.Runs && reader.Newest(AtTheEnd).All(r => r.Kind != Kinds.ServiceStopped))
        {
            yield return Finding.Advice(About, $"its service did not stop cleanly after entry {last}: it was killed, or the computer lost power; what it "
                + "acknowledged is in the ledger, and the next start records the unclean stop");
        }

        var now = examined.Time.GetUtcNow();
        if (at - now > Same)
        {
            yield return Finding.Fault("clock", $"this computer's clock says {examined.Settings.Display.Times.Second(now)}, before the last entry of "
                + $"{when}; set the clock, or measure again after the start: no measurement from before it will be used");
        }
    }

    /// <summary>The first entry that does not follow; null: all do.</summary>
    private static long? Broken(LedgerReader reader, long first, long last)
    {
        var previous = reader.HashOf(first);
        for (var above = first; above < last && previous is not null;)
        {
            var piece = reader.Piece(above, last, Looked, filter: null);
            foreach (var row in piece.Rows)
            {
                if (row.Serial != above + 1 || !ChainHash.Of(previous, Encoding.UTF8.GetBytes(row.Body)).AsSpan().SequenceEqual(row.Hash))
                {
                    return above + 1;
                }

                (previous, above) = (row.Hash, row.Serial);
            }

            if (piece.Rows.Count == 0)
            {
                return above + 1;
            }
        }

        return null;
    }
}
