using System.Text.Json;

namespace Stockseat.Audit.Replaying;

/// <summary>Compares two bodies whose bytes are not the same, value by value.</summary>
/// <param name="tolerant">Whether another version of the program wrote the recorded one: then numbers and the texts of refusals may
/// differ slightly.</param>
internal sealed class BodyComparison(bool tolerant)
{
    /// <summary>How many values of an entry are listed.</summary>
    private const int MostFields = 100;

    private readonly List<FieldDifference> _fields = [];

    /// <summary>The values that differ, in the order of the recorded body.</summary>
    public static IReadOnlyList<FieldDifference> Of(ReadOnlyMemory<byte> recorded, ReadOnlyMemory<byte> recomputed, bool tolerant)
    {
        using var was = JsonDocument.Parse(recorded);
        using var now = JsonDocument.Parse(recomputed);
        var comparison = new BodyComparison(tolerant);
        comparison.Compare("", was.RootElement, now.RootElement);
        return comparison._fields;
    }

    private void Compare(string path, JsonElement was, JsonElement now)
    {
        if (was.ValueKind == JsonValueKind.Object && now.ValueKind == JsonValueKind.Object)
        {
            Objects(path, was, now);
        }
        else if (was.ValueKind == JsonValueKind.Array && now.ValueKind == JsonValueKind.Array)
        {
            Arrays(path, was, now);
        }
        else if (!Same(path, was, now))
        {
            Add(path, was.GetRawText(), now.GetRawText());
        }
    }

    private void Objects(string path, JsonElement was, JsonElement now)
    {
        string Of(string name) => path.Length == 0 ? name : $"{path}.{name}";
        foreach (var property in was.EnumerateObject())
        {
            if (now.TryGetProperty(property.Name, out var other))
            {
                Compare(Of(property.Name), property.Value, other);
            }
            else
            {
                Add(Of(property.Name), property.Value.GetRawText(), "");
            }
        }

        foreach (var property in now.EnumerateObject().Where(p => !was.TryGetProperty(p.Name, out _)))
        {
            Add(Of(property.Name), "", property.Value.GetRawText());
        }
    }

    private void Arrays(string path, JsonElement was, JsonElement now)
    {
        var (first, second) = (was.GetArrayLength(), now.GetArrayLength());
        for (var i = 0; i < Math.Max(first, second); i++)
        {
            var at = $"{path}[{i}]";
            if (i < first && i < second)
            {
                Compare(at, was[i], now[i]);
            }
            else
            {
                Add(at, i < first ? was[i].GetRawText() : "", i < second ? now[i].GetRawText() : "");
            }
        }
    }

    private bool Same(string path, JsonElement was, JsonElement now)
    {
        if (was.ValueKind != now.ValueKind)
        {
            return false;
        }

        if (was.GetRawText() == now.GetRawText() || (was.ValueKind == JsonValueKind.String && was.GetString() == now.GetString()))
        {
            return true;
        }

        return tolerant && (was.ValueKind == JsonValueKind.Number
            ? Near(was.GetDouble(), now.GetDouble())
            : path == "text" || path.StartsWith("limits.", StringComparison.Ordinal));
    }

    private static bool Near(double a, double b) => Math.Abs(a - b) <= LedgerReplay.Tolerance * Math.Max(1, Math.Max(Math.Abs(a), Math.Abs(b)));

    private void Add(string path, string was, string now)
    {
        if (_fields.Count < MostFields)
        {
            _fields.Add(new(path, was, now));
        }
    }
}
