using System.Text.Json;
using Stockseat.Cli.Output.Shapes;

namespace Stockseat.Cli.Output;

/// <summary>Prints for programs: one object per line.</summary>
internal static class Json
{
    public static void Line(object shape) => Console.Out.WriteLine(JsonSerializer.Serialize(shape, shape.GetType(), PrintedJson.Default));
}
