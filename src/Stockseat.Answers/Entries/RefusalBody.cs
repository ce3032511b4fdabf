using System.Text.Json.Serialization;
using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Entries;

/// <summary>A refusal, as the client got it, with the inputs that led to it.</summary>
public sealed record RefusalBody : EntryBody, ILocateInputs
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Refusal;

    /// <summary>The verb that was refused.</summary>
    public required string Asked { get; init; }

    /// <summary>The reason's name.</summary>
    public required string Reason { get; init; }

    /// <summary>The reason's number.</summary>
    public required int Number { get; init; }

    public required string Text { get; init; }

    public IReadOnlyDictionary<string, string>? Limits { get; init; }

    public string? Purpose { get; init; }

    public int[]? Nest { get; init; }

    /// <summary>The diameter, stated or measured, in metres.</summary>
    public double? Diameter { get; init; }

    /// <summary>The length, stated or measured, in metres.</summary>
    public double? Length { get; init; }

    public IReadOnlyList<double>? Readings { get; init; }

    public long? Measurement { get; init; }

    /// <summary>How well the measured diameter is known.</summary>
    public DiameterFrom? From { get; init; }

    /// <summary>How uncertain the answer would have been.</summary>
    public AnswerUncertainty? Uncertainty { get; init; }

    public string? Gauge { get; init; }

    /// <summary>How far readings were allowed to spread, by the gauge, in metres; absent when the gauge stated nothing, or is not known.</summary>
    public double? Agreement { get; init; }

    public string? Lot { get; init; }

    /// <summary>What was known of the lot; absent when no lot was named, and when the lot was not known.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>The nominal diameter that the diameter had to be near, in metres.</summary>
    public double? Nominal { get; init; }

    /// <summary>How near it had to be, in metres.</summary>
    public double? Within { get; init; }

    public long? Confirms { get; init; }

    /// <summary>The serial of the answer that was said to be carried out, or asked about.</summary>
    public long? Answer { get; init; }

    /// <summary>The revision that was to be adopted.</summary>
    public int? Adopts { get; init; }

    /// <summary>The first digits of the digest that the file had to have; absent when none were stated.</summary>
    public string? AdoptsDigest { get; init; }

    /// <summary>Who wanted to hold or to release, or who found a master.</summary>
    public string? By { get; init; }

    public string? Why { get; init; }

    /// <summary>Whose hold was to be released.</summary>
    public string? Of { get; init; }

    /// <summary>Where a master was found, in base, in metres; its diameter is <see cref="Diameter"/>.</summary>
    public double[]? Found { get; init; }

    /// <summary>The limit of error of that master's diameter, in metres.</summary>
    public double? MasterWithin { get; init; }

    public string? Note { get; init; }

    public IReadOnlyDictionary<string, string>? ReadBack { get; init; }

    /// <summary>
    /// The entry to which the request id of this ask belongs; absent unless the ask was refused for that reason. The body then holds nothing else of the ask.
    /// </summary>
    public long? RetryOf { get; init; }

    /// <summary>The ledger's last entry when the first reading of a push came; absent when it came straight from its sender.</summary>
    public long? Since { get; init; }

    /// <summary>How many seconds the first reading of a push came before this entry; absent when it came straight from its sender.</summary>
    public double? Waited { get; init; }

    /// <summary>
    /// True when the push was refused before anything could be decided, and this entry was written later: nobody knows whether the diameter before it still
    /// holds. Absent otherwise.
    /// </summary>
    public bool? Undecided { get; init; }

    /// <summary>
    /// The lengths that were asked with, as they were written: one diameter, or the readings in their order. Absent when they came as numbers of metres.
    /// </summary>
    public IReadOnlyList<string>? Sent { get; init; }

    /// <summary>True when a trial asked for the next nest of a load; absent otherwise.</summary>
    public bool? Next { get; init; }

    /// <summary>In such a trial: the nest after which it was looked for.</summary>
    public int[]? After { get; init; }

    /// <summary>The nests that were said to have stock: the first ones, so many; absent when it was not stated so.</summary>
    public int? First { get; init; }

    /// <summary>The nests that were said to have stock, column and row of each; absent when it was not stated so.</summary>
    public IReadOnlyList<int[]>? Nests { get; init; }

    /// <summary>The refusal that was decided, whose text can be given in any unit; null in an entry that was read.</summary>
    [JsonIgnore]
    public Refusal? Decided { get; init; }

    /// <summary>The refusal as a value.</summary>
    [JsonIgnore]
    public Refusal Refusal => new(ReasonInfo.Find(Reason), Text, Limits);

    /// <summary>The same with the lengths of its text in a unit; one that was read keeps its text.</summary>
    public RefusalBody In(LengthUnit unit) => Decided?.In(unit) is { } text && text != Text ? this with { Text = text } : this;
}
