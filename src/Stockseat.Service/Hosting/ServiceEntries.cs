using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Adoption;
using Stockseat.Ledger.Writing;

namespace Stockseat.Service.Hosting;

/// <summary>The entries that the service writes about itself.</summary>
internal static class ServiceEntries
{
    public static IEnumerable<EntryBody> AtStart(Situation situation, LedgerWriter writer, FirstAdoption rule)
    {
        if (writer.LastKind is not (null or Kinds.ServiceStopped))
        {
            yield return new UncleanStopBody { Last = writer.Serial };
        }

        yield return new ServiceStartedBody
        {
            Ledger = writer.LastKind is null ? Guid.NewGuid().ToString() : null,
            Program = ProgramVersion.Text,
            Host = Environment.MachineName,
            Process = Environment.ProcessId,
        };
        foreach (var body in Adopting.OfFolders(situation, rule))
        {
            yield return body;
        }
    }

    public static IEnumerable<EntryBody> AtStop()
    {
        yield return new ServiceStoppedBody();
    }
}
