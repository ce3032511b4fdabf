using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller said that it has received an answer.</summary>
public sealed record ConfirmationBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Confirmation;

    /// <summary>What <see cref="Numbers"/> says when nothing was read back.</summary>
    public const string None = "none";

    /// <summary>What <see cref="Numbers"/> says when every component that is not zero of one triple was read back.</summary>
    public const string Full = "full";

    /// <summary>The serial of the answer.</summary>
    public required long Confirms { get; init; }

    public required string Purpose { get; init; }

    /// <summary>Whether numbers were read back: none, or full; absent in entries of version 1, in which a bare confirmation counted as carried out.</summary>
    public string? Numbers { get; init; }

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
