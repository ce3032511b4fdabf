using System.Globalization;
using System.Text;

namespace Stockseat.Ledger.Store;

/// <summary>One row, as it is in the file.</summary>
public ref struct EntryBytes
{
    public long Serial;
    public ReadOnlySpan<byte> At;
    public ReadOnlySpan<byte> Kind;
    public ReadOnlySpan<byte> Fixture;
    public ReadOnlySpan<byte> Client;
    public ReadOnlySpan<byte> Tag;
    public ReadOnlySpan<byte> Body;
    public ReadOnlySpan<byte> Hash;
    public bool HasFixture;
    public bool HasRevision;
    public bool HasClient;
    public bool HasTag;
    public long Revision;

    /// <summary>A column whose type the table does not allow; null when all types are allowed.</summary>
    public string? Mistyped;

    /// <summary>A column by its name, as text; null when it is NULL.</summary>
    public readonly string? Text(string column) => column switch
    {
        "serial" => Serial.ToString(CultureInfo.InvariantCulture),
        "at" => Encoding.UTF8.GetString(At),
        "kind" => Encoding.UTF8.GetString(Kind),
        "fixture" => HasFixture ? Encoding.UTF8.GetString(Fixture) : null,
        "revision" => HasRevision ? Revision.ToString(CultureInfo.InvariantCulture) : null,
        "client" => HasClient ? Encoding.UTF8.GetString(Client) : null,
        _ => HasTag ? Encoding.UTF8.GetString(Tag) : null,
    };
}
