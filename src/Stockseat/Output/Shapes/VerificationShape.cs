using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>What a verification found.</summary>
internal sealed record VerificationShape(
    bool Whole, long Entries, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Ledger, long HeadSerial,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? HeadHash,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] SealsShape? Seals, IEnumerable<LedgerFaultShape> Faults, IEnumerable<string> Findings,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Unreadable);

internal sealed record SealsShape(long Count, long Sealed, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Key);

internal sealed record LedgerFaultShape(long Serial, string Kind, string Text);
