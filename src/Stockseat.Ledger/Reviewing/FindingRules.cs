namespace Stockseat.Ledger.Reviewing;

/// <summary>TEMPORARY until the rules are merged.</summary>
public static class FindingRules
{
    public static string Name(this FindingRule rule) => string.Concat(rule.ToString().Select((c, i) => char.IsUpper(c) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(c) : c.ToString()));
}
