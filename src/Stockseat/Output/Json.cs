using System.Text.Json.Nodes;

namespace Stockseat.Cli.Output;

/// <summary>Prints for machines: one object a line.</summary>
internal static class Json
{
    public static void Line(JsonObject value) => Console.Out.WriteLine(value.ToJsonString());

    public static JsonArray Array<T>(IEnumerable<T> items, Func<T, JsonNode> make)
    {
        var array = new JsonArray();
        foreach (var item in items)
        {
            array.Add(make(item));
        }

        return array;
    }
}
