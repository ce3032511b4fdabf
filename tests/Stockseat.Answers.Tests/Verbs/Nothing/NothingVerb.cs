using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Tests.Verbs.Nothing;

/// <summary>The ask of a verb that does nothing.</summary>
internal sealed record NothingAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "nothing";
}

/// <summary>The verb's entry.</summary>
internal sealed record NothingBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => "nothing-done";
}

/// <summary>The kind of the verb's entries.</summary>
internal sealed class NothingKind : EntryKind<NothingBody>
{
    public override string Name => "nothing-done";

    protected override JsonTypeInfo<NothingBody> Json => NothingContext.Default.NothingBody;
}

/// <summary>A verb that does nothing: all that a new verb has to bring is in this file, and one line of a table.</summary>
internal sealed class NothingVerb : Verb<NothingAsk, NothingBody>
{
    public override string Name => "nothing";

    public override EntryKind Kind { get; } = new NothingKind();

    protected override EntryBody Decide(NothingAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) =>
        ask.Denied is { } denied ? ask.Refuse(denied) : new NothingBody { Fixture = ask.Fixture };

    protected override NothingAsk AskOf(NothingBody body) => new(Caller.Of(body), body.Fixture ?? "");

    protected override NothingAsk AskOfRefused(RefusalBody body) => new(Caller.Of(body), body.Fixture ?? "");

    protected override bool IsSame(NothingAsk ask, NothingBody first) => ask.Fixture == first.Fixture;

    protected override bool IsSameRefused(NothingAsk ask, RefusalBody first) => true;

    protected override string? Lapsed(NothingBody first, DecidedAfresh now) => null;
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(NothingBody))]
internal sealed partial class NothingContext : JsonSerializerContext;
