using System.Text;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Cards;
using Stockseat.V1;
using Revision = Stockseat.Fixtures.Revisions.Revision;

namespace Stockseat.Cli.Client;

/// <summary>Asks the running service whether a revision is in force.</summary>
internal static class InForceReading
{
    /// <summary>The revision in force; null when what the service sent can't be read.</summary>
    public static async Task<(Revision Revision, InForce InForce)?> Get(ServiceClient client, string fixture)
    {
        var r = await client.Call(token => client.Fixtures.GetRevisionAsync(new() { Fixture = fixture }, cancellationToken: token));
        return RevisionReader.FromContent(Encoding.UTF8.GetBytes(r.ContentJson), "the service").Revision is { } revision && revision.Digest == r.Digest
            ? (revision, Of(await List(client), revision))
            : null;
    }

    /// <summary>Whether a revision that was read from its file is in force.</summary>
    public static async Task<InForce> Ask(ServiceAccess server, Revision revision)
    {
        var (list, why) = await ServiceClient.Try(server, List);
        return list is null ? new(null, why, null) : Of(list, revision);
    }

    private static async Task<ListFixturesResponse> List(ServiceClient client) =>
        await client.Call(token => client.Fixtures.ListFixturesAsync(new(), cancellationToken: token));

    /// <summary>Null when a service of an older version says it in words alone.</summary>
    private static Proof.Lack[]? Lacking(Fixture fixture) =>
        fixture.Lacking.Count == 0 && fixture.Unproven.Count > 0 ? null : [.. fixture.Lacking.Select(Lacks.Of)];

    private static InForce Of(ListFixturesResponse list, Revision revision)
    {
        if (list.Fixtures.FirstOrDefault(f => f.Fixture_ == revision.Fixture) is not { } fixture)
        {
            return new(null, $"the service has no fixture {revision.Fixture}", null);
        }

        var refused = fixture.Refused.Length == 0 ? null : fixture.RefusedText;
        return !fixture.HasRevision ? new(false, $"no revision of {revision.Fixture} is", refused)
            : fixture.Digest == revision.Digest ? new(true, "", refused, Lacking(fixture))
            : new(
                false, $"revision {fixture.Revision} is{(fixture.Revision == revision.Number ? ", with other values" : "")}, digest {fixture.Digest[..12]}",
                refused);
    }
}
