using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>The service stopped cleanly.</summary>
public sealed record ServiceStoppedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.ServiceStopped;
}
