using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Stockseat.Answers.Records;

/// <summary>Bodies to bytes and back. What is not known is absent, never null.</summary>
public static class BodyJson
{
    /// <summary>Writes a body's bytes.</summary>
    public static void Write(Utf8JsonWriter writer, EntryBody body)
    {
        switch (body)
        {
            case AnswerBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.AnswerBody); break;
            case RefusalBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.RefusalBody); break;
            case MeasurementBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.MeasurementBody); break;
            case ConfirmationBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.ConfirmationBody); break;
            case EmptiedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.EmptiedBody); break;
            case HeldBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.HeldBody); break;
            case ReleasedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.ReleasedBody); break;
            case RevisionAdoptedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.RevisionAdoptedBody); break;
            case RevisionRejectedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.RevisionRejectedBody); break;
            case RecheckBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.RecheckBody); break;
            case LotDescribedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.LotDescribedBody); break;
            case ServiceStartedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.ServiceStartedBody); break;
            case ServiceStoppedBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.ServiceStoppedBody); break;
            case UncleanStopBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.UncleanStopBody); break;
            case ClockStepBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.ClockStepBody); break;
            case RolledOverBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.RolledOverBody); break;
            case SnapshotBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.SnapshotBody); break;
            case SealBody b: JsonSerializer.Serialize(writer, b, BodyContext.Default.SealBody); break;
            default: throw new ArgumentOutOfRangeException(nameof(body), body.Kind, "no such kind of entry");
        }
    }

    /// <summary>The most bytes that a body may have: a revision's file has 1 MiB at most, and its values may be longer in SI units.</summary>
    public const int Longest = 4 << 20;

    /// <summary>The same of an entry that carries what older ones made hold: every revision that was ever adopted.</summary>
    public const int LongestRolledOver = 64 << 20;

    /// <summary>The most bytes that a body of a kind may have.</summary>
    public static int LongestOf(string kind) => kind is Kinds.RolledOver or Kinds.Snapshot ? LongestRolledOver : Longest;

    /// <summary>Reads a body of a kind; null when the kind is not known to this version. Every reader of bodies comes through here.</summary>
    /// <exception cref="JsonException">It is no such body, it is too long, or it holds what the service never writes.</exception>
    public static EntryBody? Read(string kind, ReadOnlySpan<byte> body)
    {
        if (TooLong(kind, body.Length) is { } tooLong)
        {
            throw new JsonException(tooLong);
        }

        try
        {
            var read = Parse(kind, body);
            return read is not null && BodyRange.Fault(read) is { } fault ? throw new JsonException(fault) : read;
        }
        catch (Exception e) when (e is FormatException or InvalidOperationException or NotSupportedException)
        {
            throw new JsonException(e.Message, e); // such as half of a character, escaped
        }
    }

    /// <summary>Why a body of this length is not read, in words; null when it may be. Whoever reads rows has an empty one in place of one too long.</summary>
    public static string? TooLong(string kind, long bytes) =>
        bytes == 0 ? string.Create(CultureInfo.InvariantCulture, $"it is empty, or has more than the {LongestOf(kind)} bytes that a body may have")
        : bytes > LongestOf(kind) ? string.Create(CultureInfo.InvariantCulture, $"it has {bytes} bytes; a body has {LongestOf(kind)} at most")
        : null;

    private static EntryBody? Parse(string kind, ReadOnlySpan<byte> body) => kind switch
    {
        Kinds.Answer => JsonSerializer.Deserialize(body, BodyContext.Default.AnswerBody),
        Kinds.Refusal => JsonSerializer.Deserialize(body, BodyContext.Default.RefusalBody),
        Kinds.Measurement => JsonSerializer.Deserialize(body, BodyContext.Default.MeasurementBody),
        Kinds.Confirmation => JsonSerializer.Deserialize(body, BodyContext.Default.ConfirmationBody),
        Kinds.Emptied => JsonSerializer.Deserialize(body, BodyContext.Default.EmptiedBody),
        Kinds.Held => JsonSerializer.Deserialize(body, BodyContext.Default.HeldBody),
        Kinds.Released => JsonSerializer.Deserialize(body, BodyContext.Default.ReleasedBody),
        Kinds.RevisionAdopted => JsonSerializer.Deserialize(body, BodyContext.Default.RevisionAdoptedBody),
        Kinds.RevisionRejected => JsonSerializer.Deserialize(body, BodyContext.Default.RevisionRejectedBody),
        Kinds.Recheck => JsonSerializer.Deserialize(body, BodyContext.Default.RecheckBody),
        Kinds.LotDescribed => JsonSerializer.Deserialize(body, BodyContext.Default.LotDescribedBody),
        Kinds.ServiceStarted => JsonSerializer.Deserialize(body, BodyContext.Default.ServiceStartedBody),
        Kinds.ServiceStopped => JsonSerializer.Deserialize(body, BodyContext.Default.ServiceStoppedBody),
        Kinds.UncleanStop => JsonSerializer.Deserialize(body, BodyContext.Default.UncleanStopBody),
        Kinds.ClockStep => JsonSerializer.Deserialize(body, BodyContext.Default.ClockStepBody),
        Kinds.RolledOver => JsonSerializer.Deserialize(body, BodyContext.Default.RolledOverBody),
        Kinds.Snapshot => JsonSerializer.Deserialize(body, BodyContext.Default.SnapshotBody),
        Kinds.Seal => JsonSerializer.Deserialize(body, BodyContext.Default.SealBody),
        _ => null,
    };
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(AnswerBody))]
[JsonSerializable(typeof(RefusalBody))]
[JsonSerializable(typeof(MeasurementBody))]
[JsonSerializable(typeof(ConfirmationBody))]
[JsonSerializable(typeof(EmptiedBody))]
[JsonSerializable(typeof(HeldBody))]
[JsonSerializable(typeof(ReleasedBody))]
[JsonSerializable(typeof(RevisionAdoptedBody))]
[JsonSerializable(typeof(RevisionRejectedBody))]
[JsonSerializable(typeof(RecheckBody))]
[JsonSerializable(typeof(LotDescribedBody))]
[JsonSerializable(typeof(ServiceStartedBody))]
[JsonSerializable(typeof(ServiceStoppedBody))]
[JsonSerializable(typeof(UncleanStopBody))]
[JsonSerializable(typeof(ClockStepBody))]
[JsonSerializable(typeof(RolledOverBody))]
[JsonSerializable(typeof(SnapshotBody))]
[JsonSerializable(typeof(SealBody))]
internal sealed partial class BodyContext : JsonSerializerContext;
