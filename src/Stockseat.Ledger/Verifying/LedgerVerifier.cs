using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Chain;
using Stockseat.Ledger.Queries;

namespace Stockseat.Ledger.Verifying;

/// <summary>One thing that is wrong, with its place.</summary>
/// <param name="Serial">The entry where it shows.</param>
/// <param name="Kind">What: gap, edited, columns, body, start.</param>
/// <param name="Text">In words.</param>
public sealed record LedgerFault(long Serial, string Kind, string Text);

/// <summary>What a verification found.</summary>
/// <param name="Entries">How many entries were read.</param>
/// <param name="Ledger">The ledger's id.</param>
/// <param name="HeadSerial">The last serial.</param>
/// <param name="HeadHash">The last hash, in lower-case hexadecimal.</param>
/// <param name="Faults">All faults, in order; at most <see cref="LedgerVerifier.MostFaults"/>.</param>
/// <param name="Findings">What is worth knowing and is no fault.</param>
/// <param name="Unreadable">An entry of a version that this program does not know; null when there is none.</param>
public sealed record Verification(
    long Entries, string? Ledger, long HeadSerial, string HeadHash, IReadOnlyList<LedgerFault> Faults, IReadOnlyList<string> Findings, string? Unreadable)
{
    /// <summary>Whether the ledger is whole.</summary>
    public bool Whole => Faults.Count == 0 && Unreadable is null;

    /// <summary>0 whole, 1 not whole, 2 could not be checked.</summary>
    public int ExitCode => Faults.Count > 0 ? 1 : Unreadable is null ? 0 : 2;
}

/// <summary>Walks the chain. Hashes are compared before bodies are read: an edited body is a fault, never an unreadable version.</summary>
public sealed class LedgerVerifier
{
    /// <summary>How many faults are listed; the rest is counted in the last one.</summary>
    public const int MostFaults = 1000;

    // Short reads, so that no checkpoint waits for a verifier.
    private const int Piece = 2000;

    private const int Corrupt = 11;
    private const int NotADatabase = 26;

    private readonly List<LedgerFault> _faults = [];
    private long _entries;
    private long _serial;
    private byte[] _hash = ChainHash.Start;
    private string? _ledger;
    private string? _unreadable;

    private LedgerVerifier()
    {
    }

    /// <summary>Verifies a whole ledger.</summary>
    /// <param name="connection">The ledger, opened for reading.</param>
    /// <param name="token">Stops it between two pieces.</param>
    public static Verification Verify(SqliteConnection connection, CancellationToken token)
    {
        var verifier = new LedgerVerifier();
        // Below 1 too: a row that nobody wrote could hide there.
        var after = long.MinValue;
        var piece = Piece;
        Exception? damage = null;
        while (true)
        {
            token.ThrowIfCancellationRequested();
            try
            {
                var rows = LedgerQueries.After(connection, after, piece);
                if (rows.Count == 0)
                {
                    break;
                }

                rows.ForEach(verifier.Check);
                if (rows[^1].Serial <= after)
                {
                    damage = new InvalidDataException("its rows are not in order"); // else it would walk in a circle
                    break;
                }

                after = rows[^1].Serial;
            }
            catch (Exception e) when (Damaged(e))
            {
                damage = e;
                if (piece == 1)
                {
                    break;
                }

                piece = 1; // again, one by one, up to the place
            }
        }

        // Also when one by one it could be passed by: a broken page may show other rows to another search.
        if (damage is not null)
        {
            verifier.Fault(verifier._serial + 1, "damaged", $"the file can't be read after entry {verifier._serial}: {damage.Message}");
        }

        return verifier.Result();
    }

    /// <summary>The file is broken, or a column holds what no writer wrote: NULL, another type, a number too large.</summary>
    private static bool Damaged(Exception e) =>
        e is SqliteException { SqliteErrorCode: Corrupt or NotADatabase } or InvalidOperationException or InvalidCastException or OverflowException;

    private Verification Result()
    {
        if (_entries == 0)
        {
            _faults.Add(new(0, "start", "the ledger has no entry; even the first start of the service writes one"));
        }

        string[] findings =
        [
            "unsealed: no seal is in this ledger; without one, whoever can write the file can forge all of it",
            "no anchor was given: a cut tail or an old copy put back passes unseen",
        ];
        return new(_entries, _ledger, _serial, Convert.ToHexStringLower(_hash), _faults, findings, _unreadable);
    }

    private void Check(EntryRow row)
    {
        _entries++;
        if (row.Serial < 1)
        {
            Fault(row.Serial, "start", $"entry {row.Serial} lies before the first, which is 1");
            return;
        }

        if (_entries == 1 && row.Kind == Kinds.RolledOver)
        {
            _serial = row.Serial - 1; // Serials go on from the ledger before, which its body names.
        }

        if (row.Serial != _serial + 1)
        {
            Fault(row.Serial, "gap", row.Serial - _serial == 2
                ? $"entry {_serial + 1} is missing"
                : $"entries {_serial + 1} to {row.Serial - 1} are missing");
        }

        var body = Encoding.UTF8.GetBytes(row.Body);
        if (row.Hash.AsSpan().SequenceEqual(ChainHash.Of(_hash, body)))
        {
            CheckBody(row, body);
        }
        else if (row.Serial == _serial + 1)
        {
            Fault(row.Serial, "edited", $"entry {row.Serial} does not follow from entry {_serial}: its body or its hash, or the hash before it, was changed");
        }

        _serial = row.Serial;
        _hash = row.Hash.Length == ChainHash.Size ? row.Hash : ChainHash.Start;
    }

    private void CheckBody(EntryRow row, byte[] body)
    {
        try
        {
            using var json = JsonDocument.Parse(body);
            var root = json.RootElement;
            var version = root.GetProperty("v").GetInt32();
            if (version != EntryBody.CurrentVersion)
            {
                _unreadable ??= $"entry {row.Serial} has version {version}; this program knows {EntryBody.CurrentVersion}: verify it with the program that wrote it";
                return;
            }

            Compare(row, root);
            if (_entries == 1 && row.Kind == Kinds.RolledOver && !Follows(root, row.Serial))
            {
                Fault(row.Serial, "start", $"entry {row.Serial} is the first here and does not name an entry {row.Serial - 1} that it goes on after");
            }

            if (_entries == 1)
            {
                _ledger = root.TryGetProperty("ledger", out var id) ? id.GetString() : null;
                if (_ledger is null)
                {
                    Fault(row.Serial, "start", "the first entry carries no ledger id");
                }
            }
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            Fault(row.Serial, "body", $"entry {row.Serial} has a body that can't be read: {e.Message}");
        }
    }

    private static bool Follows(JsonElement body, long serial) =>
        body.TryGetProperty("follows", out var follows) && follows.GetProperty("last").GetInt64() == serial - 1;

    private void Compare(EntryRow row, JsonElement body)
    {
        var differs = new List<string>();
        void Column(string name, string? column)
        {
            var value = body.TryGetProperty(name, out var v) ? v.ToString() : null;
            if (value != column)
            {
                differs.Add($"{name} is '{column}' in the column and '{value}' in the body");
            }
        }

        Column("serial", row.Serial.ToString(CultureInfo.InvariantCulture));
        Column("at", row.At);
        Column("kind", row.Kind);
        Column("fixture", row.Fixture);
        Column("revision", row.Revision?.ToString(CultureInfo.InvariantCulture));
        Column("client", row.Client);
        Column("tag", row.Tag);
        if (differs.Count > 0)
        {
            Fault(row.Serial, "columns", $"entry {row.Serial}: {string.Join("; ", differs)}");
        }
    }

    private void Fault(long serial, string kind, string text)
    {
        if (_faults.Count < MostFaults)
        {
            _faults.Add(new(serial, kind, text));
        }
        else
        {
            _faults[^1] = new(serial, "more", $"and more faults, up to entry {serial}");
        }
    }
}
