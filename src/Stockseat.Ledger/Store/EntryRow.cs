using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Store;

/// <summary>
/// One row of the ledger. Only the body is authoritative; the columns are copies of its values. A body that is too long to be read is empty here.
/// </summary>
public sealed record EntryRow(
    long Serial, string At, string Kind, string? Fixture, int? Revision, string? Client, string? Tag, string Body, byte[] Hash)
{
    /// <summary>The body, read; null when this version does not know its kind.</summary>
    /// <exception cref="JsonException">The body can't be read, or belongs to another entry.</exception>
    public EntryBody? ReadBody()
    {
        var body = BodyJson.Read(Kind, Encoding.UTF8.GetBytes(Body));
        return body is null || body.Serial == Serial ? body : throw new JsonException($"the body of entry {Serial} says that it is entry {body.Serial}");
    }

    /// <summary>The same, but null also when the body can't be read, for callers that can go on without it; a verification reports it.</summary>
    public EntryBody? TryReadBody()
    {
        try
        {
            return ReadBody();
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
