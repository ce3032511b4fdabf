using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Store;

/// <summary>One row of the ledger. The body alone is authoritative; the columns are copies of it. One that is too long to be read is empty here.</summary>
public sealed record EntryRow(
    long Serial, string At, string Kind, string? Fixture, int? Revision, string? Client, string? Tag, string Body, byte[] Hash)
{
    /// <summary>The body, read; null when its kind is not known to this version.</summary>
    /// <exception cref="JsonException">It can't be read, or is none of this entry.</exception>
    public EntryBody? ReadBody()
    {
        var body = BodyJson.Read(Kind, Encoding.UTF8.GetBytes(Body));
        return body is null || body.Serial == Serial ? body : throw new JsonException($"the body of entry {Serial} says that it is entry {body.Serial}");
    }

    /// <summary>The same for whoever goes on without it; null also when it can't be read, which verifying says.</summary>
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
