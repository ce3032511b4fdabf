using System.Text.Json;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The differences between two revisions. Resolved values are compared, so 60 mm and 0.06 m are the same.</summary>
public static class RevisionChanges
{
    /// <summary>Values that move every answer come first; the calibration note, which always changes, comes last.</summary>
    private static readonly string[] Order = ["taught.diameter", "taught.position.", "taught.orientation.", "taught.", "frame.", "", "calibrated."];

    /// <summary>Reported as one change: the position of a single touched nest says nothing by itself.</summary>
    private const string Touched = "frame.touchedNests";

    /// <summary>The values that differ, except the number of the revision.</summary>
    /// <param name="before">A revision without faults.</param>
    /// <param name="after">Another revision without faults.</param>
    public static IReadOnlyList<RevisionChange> Between(RevisionReading before, RevisionReading after)
    {
        var (old, @new) = (Values(before.Revision!), Values(after.Revision!));
        return
        [
            .. old.Keys.Union(@new.Keys).Where(key => key != "revision" && old.GetValueOrDefault(key) != @new.GetValueOrDefault(key))
                .OrderBy(Rank).ThenBy(key => key, StringComparer.Ordinal)
                .Select(key => new RevisionChange(key, Shown(before, old, key), Shown(after, @new, key), UnitOf(before, after, key))),
        ];
    }

    /// <summary>The unit of bare numbers; what a file wrote has its unit in its text.</summary>
    private static string? UnitOf(RevisionReading before, RevisionReading after, string key) =>
        before.Written.ContainsKey(key) || after.Written.ContainsKey(key) ? null
            : before.Units.GetValueOrDefault(key) ?? after.Units.GetValueOrDefault(key);

    private static int Rank(string key)
    {
        var found = Array.FindIndex(Order, start => start.Length > 0 && key.StartsWith(start, StringComparison.Ordinal));
        return found >= 0 ? found : Array.IndexOf(Order, "");
    }

    private static string? Shown(RevisionReading reading, Dictionary<string, string> values, string key) =>
        key == Touched && reading.Revision!.Touched is { } touched ? $"{touched.Nests.Count} touched"
        : reading.Written.TryGetValue(key, out var written) ? written
        : values.GetValueOrDefault(key);

    private static Dictionary<string, string> Values(Revision revision)
    {
        using var content = JsonDocument.Parse(revision.Content);
        var values = new Dictionary<string, string>(StringComparer.Ordinal);
        Add("", content.RootElement);
        return values;

        void Add(string path, JsonElement element)
        {
            switch (element.ValueKind)
            {
                case JsonValueKind.Object:
                    foreach (var property in element.EnumerateObject())
                    {
                        Add(path.Length == 0 ? property.Name : $"{path}.{property.Name}", property.Value);
                    }

                    break;
                case JsonValueKind.Array when path == Touched:
                    values[path] = element.GetRawText();
                    break;
                case JsonValueKind.Array:
                    var index = 0;
                    foreach (var item in element.EnumerateArray())
                    {
                        Add($"{path}[{index++}]", item);
                    }

                    break;
                default:
                    values[path] = element.ValueKind == JsonValueKind.String ? element.GetString()! : element.GetRawText();
                    break;
            }
        }
    }
}
