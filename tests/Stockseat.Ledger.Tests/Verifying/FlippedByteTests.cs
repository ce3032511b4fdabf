using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Verifying;

/// <summary>Every byte of a small stopped ledger is flipped: either it is found, or it is proved to have no meaning.</summary>
public sealed class FlippedByteTests(ITestOutputHelper output)
{
    /// <summary>
    /// Fields of the file's header that say nothing about an entry: counters of changes, sizes of caches, the last program that wrote, and reserved fields.
    /// </summary>
    private static readonly (int From, int To, string What)[] Unchecked =
    [
        (18, 18, "which version of SQLite may write, which a start refuses loudly"), (24, 27, "the counter of changes"),
        (40, 43, "the counter of changes of tables"), (44, 46, "the format of tables, of which SQLite looks at the last byte and the sign"),
        (48, 51, "the size of the cache"),
        (56, 58, "the encoding of texts, of which SQLite looks at the last byte"), (72, 91, "reserved"), (92, 95, "the like of the counter"),
        (96, 99, "the version of SQLite that wrote last"),
    ];

    private static bool Long => Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1";

    [Fact]
    public async Task A_flipped_byte_is_found_or_has_no_meaning()
    {
        var ledger = await SealedLedger.Get();
        using var copy = new LedgerCopy(ledger.File);
        var (used, rows) = (PageMap.Of(copy.Folder), Rows(copy.Folder));
        var (found, harmless, header, missed) = (0, 0, new SortedSet<string>(), new List<string>());
        using var file = new FileStream(copy.File, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
        for (var at = 0; at < ledger.File.Length; at += Step(at, used))
        {
            Write(file, at, (byte)~ledger.File[at]);
            if (Passes(copy))
            {
                Assert.True(rows.SequenceEqual(Rows(copy.Folder)), $"byte {at} was flipped and an entry changed, but no fault was found");
                var field = Unchecked.FirstOrDefault(u => at >= u.From && at <= u.To).What;
                if (used[at] && field is null)
                {
                    missed.Add($"{at % 4096} of page {at / 4096 + 1}");
                }

                harmless++;
                if (field is not null)
                {
                    header.Add(field);
                }
            }
            else
            {
                found++;
            }

            Write(file, at, ledger.File[at]);
        }

        output.WriteLine($"{found} found, {harmless} without meaning; of the header: {string.Join("; ", header)}");
        Assert.True(missed.Count == 0, $"these bytes have a meaning and were flipped, but no fault was found: {string.Join(", ", missed)}");
        Assert.True(found > 300, $"{found} found, {harmless} without effect");
        Assert.True(harmless > 0);
        Assert.True(Passes(copy), "the original bytes were not restored");
    }

    /// <summary>In the short form: the headers of all pages completely, every 31st of the other bytes with a meaning, and every 97th of the rest.</summary>
    private static int Step(int at, bool[] used) => Long || at < 110 || at % 4096 < 24 ? 1 : Math.Min(used[at] ? 31 : 97, 4096 - at % 4096);

    private static void Write(FileStream file, int at, byte value)
    {
        file.Position = at;
        file.WriteByte(value);
        file.Flush();
    }

    private static bool Passes(LedgerCopy copy)
    {
        try
        {
            return copy.Verify().ExitCode == 0;
        }
        catch (Exception e) when (e is SqliteException or InvalidDataException or NotSupportedException)
        {
            return false; // the file can't even be opened as a ledger: exit 2
        }
    }

    /// <summary>Every column of every entry, as bytes.</summary>
    private static List<string> Rows(string folder)
    {
        using var reader = LedgerFile.OpenReader(folder);
        using var command = reader.CreateCommand();
        command.CommandText = """
            SELECT serial || '/' || hex(at) || '/' || hex(kind) || '/' || ifnull(hex(fixture), '-') || '/' || ifnull(revision, '-') || '/'
                || ifnull(hex(client), '-')
              || '/' || ifnull(hex(tag), '-') || '/' || hex(body) || '/' || hex(hash) FROM entry ORDER BY serial
            """;
        using var rows = command.ExecuteReader();
        var all = new List<string>();
        while (rows.Read())
        {
            all.Add(rows.GetString(0));
        }

        return all;
    }
}
