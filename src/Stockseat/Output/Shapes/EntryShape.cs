using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>An entry: its body as it is, with its hash. A body that is not JSON is a text.</summary>
internal sealed record EntryShape(long Serial, string Hash, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] JsonNode? Body);
