using Stockseat.Answers.Events;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>The service was started again. The first start of the ledger does not count.</summary>
internal sealed class Restarts : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts)
    {
        var bodies = facts.Bodies;
        for (var i = 0; i < bodies.Count; i++)
        {
            if (bodies[i] is ServiceStartedBody { Serial: > 1, Ledger: null } started)
            {
                // The entries that belong to a start are just before it.
                var before = bodies.Take(i).Reverse().TakeWhile(b => b is not ServiceStartedBody).ToArray();
                yield return Of(facts, started, before.OfType<UncleanStopBody>().FirstOrDefault(), before.OfType<ServiceStoppedBody>().FirstOrDefault());
            }
        }
    }

    private static ReviewFinding Of(ReviewFacts facts, ServiceStartedBody started, UncleanStopBody? unclean, ServiceStoppedBody? stopped)
    {
        var at = facts.Text.Time(started);
        if (unclean is not null)
        {
            return new(
                FindingRule.Restart, [unclean.Serial, started.Serial], null,
                $"At {at} the service was started again (entry {FindingText.Whole(started.Serial)}); the service before it did not stop cleanly, and its last "
                    + $"entry "
                    + $"is {FindingText.Whole(unclean.Last)}{LastAnswer(facts, unclean)}.",
                "It was killed, crashed, or lost power. Answers that were on their way may not have arrived, and a controller that waited may have gone on "
                    + "without one.",
                "Look in the controllers' logs for which answers arrived, and make sure that a lost connection stops the program; find out from the machine's "
                    + "own log and its power supply why the service ended.");
        }

        return new(
            FindingRule.Restart, stopped is null ? [started.Serial] : [stopped.Serial, started.Serial], null,
            $"At {at} the service was started again (entry "
                + $"{FindingText.Whole(started.Serial)}){(stopped is null ? "" : $", after it was stopped cleanly at {facts.Text.Time(stopped)}")}.",
            "While it was down no ask was answered, and connections were lost: a controller that went on did so without an answer.",
            "Find out who stopped it and why, and make sure that a lost connection stops the program.");
    }

    /// <summary>The last answer of the service that did not stop cleanly: it is the one most likely not to have arrived.</summary>
    private static string LastAnswer(ReviewFacts facts, UncleanStopBody unclean) =>
        facts.Answers.LastOrDefault(a => a.Serial <= unclean.Last) is { } last && facts.Shows(last.Serial)
        ? $"; its last answer is {FindingText.Whole(last.Serial)} of {facts.Text.Time(last)} to {FindingText.Controller(last)}" : "";
}
