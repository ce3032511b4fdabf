using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>A setting, and where it comes from.</summary>
internal sealed record SettingShape(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Value, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Source);

/// <summary>Samples of the replies of a form.</summary>
internal sealed record FormShape(string Form, string Answer, string Done, string Refused, IEnumerable<string> Advice);
