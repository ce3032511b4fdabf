using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller said that it has applied an answer.</summary>
public sealed record ConfirmationBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Confirmation;

    /// <summary>The serial of that answer.</summary>
    public required long Confirms { get; init; }

    public required string Purpose { get; init; }

    /// <summary>The shift in base that was confirmed: bx, by, bz.</summary>
    public required double[] ShiftBase { get; init; }

    /// <summary>The numbers that were read back, by name, as sent.</summary>
    public IReadOnlyDictionary<string, string>? ReadBack { get; init; }

    /// <summary>
    /// The newest confirmation of the other purpose, 0 when there is none; absent in entries of older versions. With it, a start needs only the newest of all
    /// confirmations.
    /// </summary>
    public long? Other { get; init; }
}
