using System.Globalization;
using System.Reflection;

namespace Stockseat.Plant.Schema;

/// <summary>
/// The tables, views and roles of the plant store, in steps. A step that was published is never changed: another form is another step.
/// </summary>
public static class PlantSchema
{
    /// <summary>The newest step.</summary>
    public static int Newest => Steps.Count;

    /// <summary>The text of each step, from step 1.</summary>
    public static IReadOnlyList<string> Steps { get; } = [.. Read()];

    /// <summary>All steps as one text that any tool can run in an empty database.</summary>
    public static string Text => "BEGIN;\n" + string.Concat(Steps.Select((step, i) => $"\n{step}\n{Record(i + 1)}\n")) + "\nCOMMIT;\n";

    /// <summary>Records that a step was applied.</summary>
    internal static string Record(int step) => string.Create(CultureInfo.InvariantCulture, $"INSERT INTO stockseat.schema_version (version) VALUES ({step});");

    private static IEnumerable<string> Read()
    {
        string Name(int step) => string.Create(CultureInfo.InvariantCulture, $"{step:0000}.sql");
        for (var i = 1; Assembly.GetExecutingAssembly().GetManifestResourceStream(Name(i)) is { } stream; i++)
        {
            using var reader = new StreamReader(stream);
            yield return reader.ReadToEnd().TrimEnd();
        }
    }
}
