using Stockseat.Answers.Entries;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Adoption;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using System.Text.Json.Nodes;

namespace Stockseat.Answers.Tests.Proving;

/// <summary>
/// Whether proving finds mistakes in a revision's file. A script of its own makes random fixtures, a mistake in the file of each, and says what a person
/// would find who follows the recipe; the files and the rechecks then go through the code that serves.
/// </summary>
public sealed class ProvingTests
{
    private const int Seed = 2026;
    private const int Count = 200;

    /// <summary>
    /// The largest move of a nest, in limits of a recheck, that masters near both ends may miss. Above 1 because no master is seated at the very ends of the
    /// range and in the nest that is last in both directions: there two misses that are each within the limit add up. The largest in 20,000 trials was 1.4.
    /// </summary>
    private const double MissedNearTheEnds = 1.5;

    private static readonly Task<SimulatedProof[]> Simulated = SimulatedProof.Run(Seed, Count);

    [Fact]
    public async Task Every_right_file_is_proven()
    {
        foreach (var proof in await Simulated)
        {
            Assert.Equal((proof.Right.ToJsonString(), null), (proof.Right.ToJsonString(), Caught(proof.Right, proof.OfTheRightFile)));
        }
    }

    [Fact]
    public async Task Masters_near_both_ends_find_every_mistake_that_matters()
    {
        var proofs = (await Simulated).Where(p => p.MovesMoreThan(MissedNearTheEnds)).ToArray();
        var caught = proofs.Select(p => Caught(p.Wrong, p.NearTheEnds)).ToArray();

        Assert.Empty(proofs.Where((_, i) => caught[i] is null).Select(Said));
        Assert.True(caught.Count(c => c == "missed") > Count / 2, "too few of the mistakes are found by a recheck");
        Assert.True(proofs.Select(p => p.Mistake).Distinct().Count() >= 12, "too few kinds of mistakes");
    }

    /// <summary>
    /// The least that counts as proof finds less: both masters may lie near the taught diameter, where many mistakes are small. So the documents ask for
    /// masters near both ends.
    /// </summary>
    [Fact]
    public async Task Masters_that_differ_by_just_a_fifth_of_the_range_miss_some_that_masters_near_both_ends_find()
    {
        var missed = (await Simulated).Where(p => p.MovesMoreThan(1) && Caught(p.Wrong, p.LeastApart) is null).ToArray();

        Assert.InRange(missed.Length, 1, Count / 8);
        Assert.All(missed, p => Assert.False(p.MovesMoreThan(10), Said(p)));
        Assert.Contains(missed, p => Caught(p.Wrong, p.NearTheEnds) is not null);
    }

    /// <summary>What catches the mistake; null when the revision counts as proven.</summary>
    private static string? Caught(JsonObject content, SimulatedRecheck[] rechecks)
    {
        var file = SimulatedProof.File(content);
        if (file.Reading.Revision is not { } revision)
        {
            return file.Reading.Faults[0];
        }

        if (EnvelopeFaults.Of(revision, LengthUnit.Millimetre).FirstOrDefault() is { } fault)
        {
            return fault;
        }

        var bench = Bench.Serving(file);
        foreach (var recheck in rechecks)
        {
            if (recheck.Found is not [var x, var y, var z])
            {
                return "no such nest";
            }

            var body = bench.Do(new RecheckAsk(Bench.Controller, revision.Fixture)
            {
                By = "day setter", MasterMetres = recheck.Master, Column = recheck.Nest[0], Row = recheck.Nest[1], FoundMetres = new Vector3(x, y, z),
            });
            if (body is RefusalBody refusal)
            {
                return refusal.Reason;
            }

            var judged = Assert.IsType<RecheckBody>(body);
            Assert.Equal(recheck.Apart!.Value, judged.Length, 1e-9);
            if (judged.Passed != true)
            {
                return "missed";
            }
        }

        Assert.Empty(bench.Situation.Find(revision.Fixture)!.Unproven);
        return null;
    }

    private static string Said(SimulatedProof p) => $"seed {Seed}: {p.Mistake} moves a nest by {p.Moved / p.Limit:0.00} limits; {p.Wrong.ToJsonString()}";
}
