using System.Globalization;
using System.Text.Json;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Output;

/// <summary>
/// Entries as comma-separated values (RFC 4180): decimal points, lengths in metres, empty where nothing is known. A text that a spreadsheet could take for a
/// formula, or that begins with an apostrophe, gets an apostrophe in front; without that first apostrophe it is the original text. A file or a program gets
/// the texts as they are; on a terminal they are cleaned so that they can't move the cursor or reverse a line.
/// </summary>
internal sealed class EntryCsv : IDisposable
{
    /// <summary>The characters with which a formula begins in spreadsheets, and those that would hide them.</summary>
    private const string Risky = "=+-@\t\r\n'";

    private static readonly string[] Columns =
    [
        "serial", "at", "kind", "fixture", "revision", "client", "cell", "tag", "request", "purpose", "column", "row", "diameter [m]", "lot", "measurement",
        "x [m]", "y [m]", "z [m]", "bx [m]", "by [m]", "bz [m]", "first", "reason", "text", "confirms", "who", "why", "hash",
    ];

    private readonly CsvTable _table;
    private readonly bool _onTerminal;

    /// <param name="target">Where it goes.</param>
    /// <param name="onTerminal">Whether people look at it.</param>
    /// <param name="more">The names of further columns.</param>
    public EntryCsv(TextWriter target, bool onTerminal, params string[] more) => (_table, _onTerminal) = (new(target, [.. Columns, .. more]), onTerminal);

    /// <summary>Adds an entry.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="more">The fields of the further columns: our own texts, or numbers.</param>
    public void Add(EntryRow entry, params string[] more) =>
        _table.Add([.. Fields(entry).Select(f => _onTerminal ? Plain.Text(f) : f), .. more]);

    public void Dispose() => _table.Dispose();

    private static string[] Fields(EntryRow entry)
    {
        using var json = Parse(entry.Body);
        var body = json?.RootElement;
        return
        [
            entry.Serial.ToString(CultureInfo.InvariantCulture), Safe(entry.At), Safe(entry.Kind), Safe(entry.Fixture), EntryView.Revision(entry),
            Safe(entry.Client), Text(body, "cell"), Safe(entry.Tag), Text(body, "request"), Text(body, "purpose"), Item(body, "nest", 0), Item(body, "nest", 1),
            Number(body, "diameter"), Text(body, "lot"), Number(body, "measurement"),
            Item(body, "position", 0), Item(body, "position", 1), Item(body, "position", 2),
            Item(body, "shiftBase", 0), Item(body, "shiftBase", 1), Item(body, "shiftBase", 2), YesOrNo(body, "first"),
            Text(body, "reason"), Text(body, "text"), Number(body, "confirms"), Text(body, "by"), Text(body, "why"), EntryView.Hash(entry),
        ];
    }

    private static JsonDocument? Parse(string body)
    {
        try
        {
            var json = JsonDocument.Parse(body);
            return json.RootElement.ValueKind == JsonValueKind.Object ? json : null;
        }
        catch (JsonException)
        {
            return null; // The other columns and the hash are exported nevertheless; ledger verify says what is wrong.
        }
    }

    private static JsonElement? Find(JsonElement? body, string name) => body?.TryGetProperty(name, out var value) == true ? value : null;

    private static string Text(JsonElement? body, string name) =>
        Find(body, name) is { ValueKind: JsonValueKind.String } value ? Safe(Unescaped(value)) : "";

    /// <summary>The text; half of a surrogate pair, which only a forged body has, is given as it is written.</summary>
    private static string Unescaped(JsonElement text)
    {
        try
        {
            return text.GetString()!;
        }
        catch (InvalidOperationException)
        {
            return text.GetRawText();
        }
    }

    private static string Number(JsonElement? body, string name) => Decimal(Find(body, name));

    private static string Item(JsonElement? body, string name, int index) =>
        Find(body, name) is { ValueKind: JsonValueKind.Array } list && list.GetArrayLength() > index ? Decimal(list[index]) : "";

    private static string YesOrNo(JsonElement? body, string name) => Find(body, name)?.ValueKind switch
    {
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        _ => "",
    };

    /// <summary>All digits that the body has, never with an exponent: some readers take that for text.</summary>
    private static string Decimal(JsonElement? value) =>
        value is not { ValueKind: JsonValueKind.Number } n ? ""
        : n.TryGetInt64(out var whole) ? whole.ToString(CultureInfo.InvariantCulture)
        : n.TryGetDecimal(out var number) ? number.ToString(CultureInfo.InvariantCulture) : n.GetRawText();

    private static string Safe(string? text) => text is { Length: > 0 } && Risky.Contains(text[0], StringComparison.Ordinal) ? "'" + text : text ?? "";
}
