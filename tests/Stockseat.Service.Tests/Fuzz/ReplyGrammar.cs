using System.Text.RegularExpressions;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Tests.Fuzz;

/// <summary>What a reply may be, written from proto/README.md.</summary>
internal static partial class ReplyGrammar
{
    private static readonly HashSet<string> Reasons = [.. Enum.GetValues<Reason>().Where(r => r is not (Reason.None or Reason.InternalFailure))
        .Select(r => ReasonInfo.Of(r).Name)];

    /// <summary>Why a line is not a reply; null when it is one.</summary>
    public static string? Fault(string reply)
    {
        if (Ok().IsMatch(reply))
        {
            return null;
        }

        if (Refused().Match(reply) is not { Success: true } refused)
        {
            return "it is neither ok nor refused";
        }

        return !Reasons.Contains(refused.Groups["reason"].Value) ? "its reason is not of the list, or is an internal failure"
            : Coordinate().IsMatch(reply) ? "it carries a coordinate"
            : null;
    }

    /// <summary>The tag of a reply; null when there is none.</summary>
    public static string? Tag(string reply) => Tagged().Match(reply) is { Success: true } match ? match.Groups["tag"].Value : null;

    [GeneratedRegex(@"\Aok(?: tag=[A-Za-z0-9._-]{1,40})?(?: [!-~]+)*(?: text=""[ !#-~]*"")?\z")]
    private static partial Regex Ok();

    [GeneratedRegex(@"\Arefused(?: tag=[A-Za-z0-9._-]{1,40})? class=(?:request|cell|service) reason=(?<reason>[a-z-]+) text=""[ !#-~]*""\z")]
    private static partial Regex Refused();

    [GeneratedRegex(@"(?<![A-Za-z0-9])(?:[xyz]|q[wxyz]|[bo][xyz])=")]
    private static partial Regex Coordinate();

    [GeneratedRegex(@"\A(?:ok|refused) tag=(?<tag>[^ ]+)")]
    private static partial Regex Tagged();
}
