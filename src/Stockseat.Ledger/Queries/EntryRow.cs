using System.Text;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Queries;

/// <summary>One row of the ledger. The body alone is authoritative; the columns are copies of it.</summary>
public sealed record EntryRow(
    long Serial, string At, string Kind, string? Fixture, int? Revision, string? Client, string? Tag, string Body, byte[] Hash)
{
    /// <summary>The body, read.</summary>
    public EntryBody? ReadBody() => BodyJson.Read(Kind, Encoding.UTF8.GetBytes(Body));
}
