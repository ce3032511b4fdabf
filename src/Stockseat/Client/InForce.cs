using System.Text;
using Stockseat.Fixtures.Revisions;
using Stockseat.V1;
using Revision = Stockseat.Fixtures.Revisions.Revision;

namespace Stockseat.Cli.Client;

/// <summary>Whether a revision is in force, as far as the running service could be asked.</summary>
/// <param name="Is">Whether it is; null: nobody knows.</param>
/// <param name="Why">What is in force instead, or why nobody knows; empty when it is in force.</param>
/// <param name="Refused">Why the service refuses all asks of the fixture now; null when it does not, or that is not known.</param>
internal sealed record InForce(bool? Is, string Why, string? Refused)
{
    /// <summary>Whether it is, in words.</summary>
    public string Head => Is switch { true => "in force", false => "NOT IN FORCE", null => "NOT KNOWN whether it is in force" };

    /// <summary>The same with the reason.</summary>
    public string Said => Why.Length > 0 ? $"{Head}: {Why}" : Head;

    /// <summary>The revision in force; null when what the service says of it can't be read.</summary>
    public static async Task<(Revision Revision, InForce InForce)?> Get(ServiceClient client, string fixture)
    {
        var r = await client.Call(token => client.Fixtures.GetRevisionAsync(new() { Fixture = fixture }, cancellationToken: token));
        return RevisionReader.FromContent(Encoding.UTF8.GetBytes(r.ContentJson), "the service").Revision is { } revision && revision.Digest == r.Digest
            ? (revision, Of(await List(client), revision))
            : null;
    }

    /// <summary>How a revision stands that was read from its file.</summary>
    public static async Task<InForce> Ask(string server, Revision revision)
    {
        var (list, why) = await ServiceClient.Try(server, List);
        return list is null ? new(null, why, null) : Of(list, revision);
    }

    private static async Task<ListFixturesResponse> List(ServiceClient client) => await client.Call(token => client.Fixtures.ListFixturesAsync(new(), cancellationToken: token));

    private static InForce Of(ListFixturesResponse list, Revision revision)
    {
        if (list.Fixtures.FirstOrDefault(f => f.Fixture_ == revision.Fixture) is not { } fixture)
        {
            return new(null, $"the service tells of no fixture {revision.Fixture}", null);
        }

        var refused = fixture.Refused.Length == 0 ? null : fixture.RefusedText;
        return !fixture.HasRevision ? new(false, $"no revision of {revision.Fixture} is", refused)
            : fixture.Digest == revision.Digest ? new(true, "", refused)
            : new(false, $"revision {fixture.Revision} is{(fixture.Revision == revision.Number ? ", with other values" : "")}, digest {fixture.Digest[..12]}", refused);
    }
}
