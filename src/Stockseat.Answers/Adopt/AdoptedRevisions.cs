using System.Collections.Concurrent;
using System.Text;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Adopt;

/// <summary>The revisions in adoption entries. Each is read once, and its envelopes are solved once, also for many replays side by side.</summary>
public sealed class AdoptedRevisions
{
    private readonly ConcurrentDictionary<string, Revision?> _read = new(StringComparer.Ordinal);

    /// <summary>The revision that an entry adopts; null when its values do not give its digest.</summary>
    public Revision? Read(IAdoption body) =>
        _read.GetOrAdd(body.Content.GetRawText(), Read) is { } revision && revision.Digest == body.Digest ? revision : null;

    private static Revision? Read(string content) => RevisionReader.FromContent(Encoding.UTF8.GetBytes(content), "the ledger").Revision;
}
