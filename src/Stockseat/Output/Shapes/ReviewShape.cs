using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>A review. Lengths in metres, instants as entries have them.</summary>
internal sealed record ReviewShape(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Ledger, long HeadSerial, string HeadHash, string At, string From, string To,
    ReviewedShape Asked, long Then, IEnumerable<string> Summary, IEnumerable<ReviewHeadlineShape> Headlines,
    IEnumerable<ReviewFindingShape> Findings, IEnumerable<AdoptionChangesShape> Changes, IEnumerable<FixtureThenShape> Fixtures,
    IEnumerable<ServedAnswerShape> Answers, IEnumerable<EntryShape> Entries, long LeftOut, IEnumerable<EntryShape> Older, IEnumerable<long> Adoptions,
    ChainShape Chain, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] VerificationShape? Whole, ReplayShape Replay);

/// <summary>What was asked.</summary>
internal sealed record ReviewedShape(double Jump, long? Serial, string? Fixture, string? Cell);

/// <summary>A finding. MayBeOff: how far it may have sent the robot to a wrong place; absent when that is not known.</summary>
internal sealed record ReviewFindingShape(
    string Rule, IEnumerable<long> Serials, string What, string Why, string Next, string? Fixture, double? MayBeOff, bool BelowResolution, bool OnLastAnswer);

/// <summary>Lot and diameter of a fixture before and after.</summary>
internal sealed record ReviewHeadlineShape(string Fixture, string Text, StockAnsweredShape? Before, StockAnsweredShape? After);

internal sealed record StockAnsweredShape(long Answer, double Diameter, string? Lot, int? Revision);

/// <summary>What an adoption among the findings changed; values as the ledger has them, with their SI units.</summary>
internal sealed record AdoptionChangesShape(long Serial, string Fixture, int Before, int After, IEnumerable<AdoptionChangeShape> Keys);

internal sealed record AdoptionChangeShape(string Key, string? Before, string? After, string? Unit);

/// <summary>How a fixture stood, by the entries that say so.</summary>
internal sealed record FixtureThenShape(
    string Fixture, IEnumerable<HoldShape> Holds, int? Revision, string? Digest, long? Adopted, long? Measurement, string? NoMeasurement, long? Emptied,
    long? Missed, long? LastAnswer, long? LastConfirmedBy, string? Load);

internal sealed record ServedAnswerShape(
    long Serial, IEnumerable<long> Between, IEnumerable<long> Misread, long? Measurement, long? Before, double[]? Change, double? ChangeLength,
    long? ConfirmedBy,
    bool? Follows);

internal sealed record ChainShape(bool Follows, string? Fault, string? Plant);
