namespace Stockseat.Fixtures.Planning;

/// <summary>The candidates of a planning question.</summary>
public sealed class Candidates
{
    /// <summary>More than this are not judged at once.</summary>
    public const int Most = 10_000;

    private Candidates(IReadOnlyList<Candidate> all, int overlapping) => (All, Overlapping) = (all, overlapping);

    /// <summary>All candidates, each once, in the order in which they were stated.</summary>
    public IReadOnlyList<Candidate> All { get; }

    /// <summary>How many were left out because their pins would overlap.</summary>
    public int Overlapping { get; }

    /// <summary>How many combinations a question has, before any is left out; counted without making them.</summary>
    public static double Count(PlanningQuestion question) =>
        question.VeeRadians.Count + question.PinMetres.Sum(
            pin => question.SpacingMetres.Count + question.Holes.Sum(h => Math.Max(0, MostHoles(question, h, pin) - h.Least + 1)));

    /// <summary>Makes the candidates.</summary>
    /// <param name="question">The question; with <see cref="Most"/> combinations at most.</param>
    public static Candidates Of(PlanningQuestion question)
    {
        if (!(Count(question) <= Most))
        {
            throw new ArgumentOutOfRangeException(nameof(question), Count(question), $"{Most} combinations at most");
        }

        var (all, seen, overlapping) = (new List<Candidate>(), new HashSet<(double, double)>(), 0);
        foreach (var pin in question.PinMetres)
        {
            foreach (var candidate in question.SpacingMetres.Select(s => Candidate.Pins(pin, s))
                .Concat(question.Holes.SelectMany(h => InHoles(question, h, pin))))
            {
                if (!seen.Add((pin, candidate.SpacingMetres)))
                {
                    continue;
                }

                if (candidate.SpacingMetres < pin)
                {
                    overlapping++;
                    continue;
                }

                all.Add(candidate);
            }
        }

        all.AddRange(question.VeeRadians.Distinct().Select(Candidate.Vee));
        return new(all, overlapping);
    }

    private static IEnumerable<Candidate> InHoles(PlanningQuestion question, HolePitch holes, double pin)
    {
        var most = (int)MostHoles(question, holes, pin);
        for (var k = holes.Least; k <= most; k++)
        {
            yield return Candidate.Pins(pin, k * holes.Metres, k);
        }
    }

    /// <summary>The stated greatest multiple, or else the last one at which the largest stock does not drop: s &lt; D + d.</summary>
    private static double MostHoles(PlanningQuestion question, HolePitch holes, double pin) =>
        holes.Most ?? Math.Ceiling((question.RangeMetres.To + pin) / holes.Metres) - 1;
}
