using System.Text.Json;
using System.Text.Json.Serialization;

namespace Stockseat.Answers.Records;

/// <summary>The body of one entry: it holds everything and alone is authoritative. Metres, unit quaternions, UTC.</summary>
public abstract record EntryBody
{
    /// <summary>The version of bodies that this program writes.</summary>
    public const int CurrentVersion = 1;

    /// <summary>Where the kind stands in a body; an override does not take the order of what it overrides.</summary>
    protected const int KindOrder = -7;

    [JsonPropertyName("v"), JsonPropertyOrder(-10)]
    public int Version { get; init; } = CurrentVersion;

    /// <summary>The entry's number in the ledger; given by the writer.</summary>
    [JsonPropertyOrder(-9)]
    public long Serial { get; set; }

    /// <summary>The instant of the decision; given by the writer.</summary>
    [JsonPropertyOrder(-8)]
    public string At { get; set; } = "";

    [JsonPropertyOrder(KindOrder)]
    public abstract string Kind { get; }

    /// <summary>The fixture that it is about.</summary>
    [JsonPropertyOrder(-6)]
    public string? Fixture { get; init; }

    /// <summary>The revision that it comes from.</summary>
    [JsonPropertyOrder(-5)]
    public int? Revision { get; init; }

    /// <summary>The digest of that revision.</summary>
    [JsonPropertyOrder(-4)]
    public string? Digest { get; init; }

    /// <summary>Who asked, by the configuration's name or by address.</summary>
    [JsonPropertyOrder(-3)]
    public string? Client { get; set; }

    /// <summary>The cell of that client.</summary>
    [JsonPropertyOrder(-3)]
    public string? Cell { get; set; }

    /// <summary>The address and port that the request came from.</summary>
    [JsonPropertyOrder(-3)]
    public string? Address { get; set; }

    /// <summary>The tag that the client sent.</summary>
    [JsonPropertyOrder(-2)]
    public string? Tag { get; set; }

    /// <summary>The request id that the client sent.</summary>
    [JsonPropertyOrder(-2)]
    public string? Request { get; set; }
}

/// <summary>The service began. The first entry of a ledger carries the ledger's id here.</summary>
public sealed record ServiceStartedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.ServiceStarted;

    public string? Ledger { get; init; }

    public required string Program { get; init; }

    public required string Host { get; init; }

    public required int Process { get; init; }
}

/// <summary>The service ended in order.</summary>
public sealed record ServiceStoppedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.ServiceStopped;
}

/// <summary>The service before this one did not end in order.</summary>
public sealed record UncleanStopBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.UncleanStop;

    /// <summary>The last entry that it wrote.</summary>
    public required long Last { get; init; }
}

/// <summary>A revision came in force, with its whole content: a replay needs nothing but the ledger.</summary>
public sealed record RevisionAdoptedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RevisionAdopted;

    public required string By { get; init; }

    public required string Why { get; init; }

    public bool Automatic { get; init; }

    /// <summary>The resolved values in SI units; the digest is over their canonical form.</summary>
    public required JsonElement Content { get; init; }
}

/// <summary>A revision's file was found faulty or changed.</summary>
public sealed record RevisionRejectedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RevisionRejected;

    /// <summary>SHA-256 of the file.</summary>
    public required string File { get; init; }

    public required IReadOnlyList<string> Faults { get; init; }
}

/// <summary>A diameter that a gauge station pushed.</summary>
public sealed record MeasurementBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Measurement;

    /// <summary>The mean of the readings, in metres.</summary>
    public required double Diameter { get; init; }

    /// <summary>The readings, in metres.</summary>
    public required IReadOnlyList<double> Readings { get; init; }

    /// <summary>The largest reading less the smallest, in metres; absent with one reading, whose spread nobody knows.</summary>
    public double? Spread { get; init; }

    /// <summary>The unit that was sent.</summary>
    public string? Unit { get; init; }

    public string? Gauge { get; init; }

    /// <summary>How far its readings might spread, in metres; absent when the gauge stated nothing, and they were not judged.</summary>
    public double? Agreement { get; init; }

    /// <summary>How sure the gauge's readings are; absent when it stated nothing.</summary>
    public GaugeLimits? Limits { get; init; }

    public string? Lot { get; init; }

    /// <summary>What was known of the lot; absent when none was named.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>For how many seconds it may be used, counted from its first reading.</summary>
    public required double FreshFor { get; init; }

    /// <summary>The ledger's last entry when its first reading came; absent when it came straight from its sender.</summary>
    public long? Since { get; init; }

    /// <summary>How many seconds its first reading came before this entry; absent when it came straight from its sender.</summary>
    public double? Waited { get; init; }
}

/// <summary>The nests were cleared or refilled: the measurement is void.</summary>
public sealed record EmptiedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Emptied;

    /// <summary>The reason for which its sender was refused at first, when it could not be written; absent when it was not.</summary>
    public string? Undecided { get; init; }
}

/// <summary>Somebody is at the fixture: no ask is answered until the release.</summary>
public sealed record HeldBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Held;

    public required string By { get; init; }

    public required string Why { get; init; }
}

/// <summary>A hold ended.</summary>
public sealed record ReleasedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Released;

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>Whose hold.</summary>
    public required string Of { get; init; }

    /// <summary>How many holds of the fixture are left.</summary>
    public required int Left { get; init; }
}

/// <summary>The controller's word that it has applied an answer.</summary>
public sealed record ConfirmationBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Confirmation;

    /// <summary>The serial of the answer.</summary>
    public required long Confirms { get; init; }

    public required string Purpose { get; init; }

    /// <summary>The shift in base that was confirmed: bx, by, bz.</summary>
    public required double[] ShiftBase { get; init; }

    /// <summary>The numbers read back, by name, as sent.</summary>
    public IReadOnlyDictionary<string, string>? ReadBack { get; init; }

    /// <summary>The confirmation of the other purpose whose shift stands, 0 when none does; absent in entries of before. So a start needs the newest of all confirmations only.</summary>
    public long? Other { get; init; }
}
