using System.Text.Json.Nodes;
using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>The resolved values of a revision.</summary>
internal sealed record RevisionShape(
    string Fixture, int Revision, string Digest, bool InForce, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] JsonNode? Content);
