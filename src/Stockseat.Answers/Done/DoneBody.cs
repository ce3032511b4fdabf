using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Done;

/// <summary>The word that the move of an answer was carried out and went well.</summary>
public sealed record DoneBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Done;

    /// <summary>The serial of the answer.</summary>
    public required long Answer { get; init; }

    /// <summary>
    /// The serial of the confirmation that read its numbers back; absent when it was carried out before and is said again, or when a person settled the
    /// unfinished move of a load whose numbers were never read back.
    /// </summary>
    public long? Confirmation { get; init; }

    public required string Purpose { get; init; }

    /// <summary>The nest: column, row.</summary>
    public required int[] Nest { get; init; }

    /// <summary>The shift in base that was carried out: bx, by, bz.</summary>
    public required double[] ShiftBase { get; init; }

    /// <summary>The load of the answer, while it stands; absent otherwise.</summary>
    public long? Load { get; init; }

    /// <summary>Who says so; absent when the controller does.</summary>
    public string? By { get; init; }
}
