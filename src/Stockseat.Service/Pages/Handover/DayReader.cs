using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;

namespace Stockseat.Service.Pages.Handover;

/// <summary>Reads the entries of the last hours.</summary>
public static class DayReader
{
    /// <summary>The most entries that are looked at: a sheet must not keep the ledger's disk from those who wait for an answer.</summary>
    public const int Most = 100_000;

    /// <summary>Adds up the entries since an instant that a client may see.</summary>
    /// <param name="reader">The ledger.</param>
    /// <param name="since">The instant.</param>
    /// <param name="maySee">Whether the client may see a fixture.</param>
    /// <param name="most">The most entries that are looked at.</param>
    public static DayTally Read(LedgerReader reader, DateTimeOffset since, Func<string, bool> maySee, int most = Most)
    {
        var tally = new DayTally();
        var first = Encoding.ASCII.GetBytes(EntryTime.Text(since)); // Instants have one form and one length, so they are compared as they are written.
        reader.Downwards(reader.Last, 1, (in row) =>
        {
            if (row.At.SequenceCompareTo(first) < 0)
            {
                return false;
            }

            if (tally.Looked == most)
            {
                tally.CutAt = Encoding.UTF8.GetString(row.At);
                return false;
            }

            tally.Looked++;
            var kind = Encoding.UTF8.GetString(row.Kind);
            if (DayTally.CountedKinds.Contains(kind) && (!row.HasFixture || maySee(Encoding.UTF8.GetString(row.Fixture))))
            {
                tally.Add(Body(kind, row.Body));
            }

            return true;
        });
        return tally;
    }

    private static EntryBody? Body(string kind, ReadOnlySpan<byte> body)
    {
        try
        {
            return BodyJson.Read(kind, body);
        }
        catch (JsonException)
        {
            return null; // A verification reports it.
        }
    }
}
