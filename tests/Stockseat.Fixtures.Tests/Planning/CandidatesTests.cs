using Stockseat.Fixtures.Planning;

namespace Stockseat.Fixtures.Tests.Planning;

public sealed class CandidatesTests
{
    private static readonly PlanningQuestion Question = new() { RangeMetres = (0.06, 0.1) };

    [Fact]
    public void Each_pin_is_tried_at_each_spacing_and_multiple()
    {
        var all = Candidates.Of(Question with { PinMetres = [0.01, 0.012], SpacingMetres = [0.03], Holes = [new(0.025, 2, 3)], VeeRadians = [1.5] }).All;

        Assert.Equal(
            [
                Candidate.Pins(0.01, 0.03), Candidate.Pins(0.01, 0.05, 2), Candidate.Pins(0.01, 3 * 0.025, 3),
                Candidate.Pins(0.012, 0.03), Candidate.Pins(0.012, 0.05, 2), Candidate.Pins(0.012, 3 * 0.025, 3),
                Candidate.Vee(1.5),
            ],
            all);
    }

    [Fact]
    public void Holes_without_counts_go_up_to_the_last_spacing_that_seats_the_largest_stock()
    {
        // By hand: 100 mm on 10 mm pins drops at a spacing of 110 mm; with a pitch of 25 mm, 4 pitches are 100 mm, 5 are 125 mm. With a pitch of 27.5 mm, 4 are
        // 110 mm: the stock drops.
        Assert.Equal([1, 2, 3, 4], Candidates.Of(Question with { PinMetres = [0.01], Holes = [new(0.025)] }).All.Select(c => c.Holes!.Value));
        Assert.Equal([1, 2, 3], Candidates.Of(Question with { PinMetres = [0.01], Holes = [new(0.0275)] }).All.Select(c => c.Holes!.Value));
        Assert.Empty(Candidates.Of(Question with { PinMetres = [0.01], Holes = [new(0.5)] }).All);
    }

    [Fact]
    public void A_candidate_that_is_stated_twice_counts_once()
    {
        var all = Candidates.Of(Question with { PinMetres = [0.01, 0.01], SpacingMetres = [0.05, 0.05], Holes = [new(0.025, 2, 2)], VeeRadians = [1, 1] }).All;

        Assert.Equal([Candidate.Pins(0.01, 0.05), Candidate.Vee(1)], all);
    }

    [Fact]
    public void Pins_that_would_overlap_are_left_out_and_counted()
    {
        var candidates = Candidates.Of(Question with { PinMetres = [0.03, 0.01], SpacingMetres = [0.03, 0.0299] });

        Assert.Equal([Candidate.Pins(0.03, 0.03), Candidate.Pins(0.01, 0.03), Candidate.Pins(0.01, 0.0299)], candidates.All);
        Assert.Equal(1, candidates.Overlapping);
    }

    [Fact]
    public void Too_many_candidates_are_counted_without_being_made()
    {
        var question = Question with { PinMetres = [0.01], Holes = [new(1e-12)] };

        Assert.InRange(Candidates.Count(question), 1.09e11, 1.11e11);
        Assert.Throws<ArgumentOutOfRangeException>(() => Candidates.Of(question));
        Assert.Throws<ArgumentOutOfRangeException>(() => Candidates.Of(Question with { PinMetres = [0.01], Holes = [new(0.025, 1, Candidates.Most + 1)] }));
        Assert.Equal(Candidates.Most, Candidates.Of(Question with { PinMetres = [0.01], Holes = [new(0.025, 1, Candidates.Most)] }).All.Count);
    }

    [Fact]
    public void The_half_angle_of_pins_follows_the_sine_and_ends_where_the_stock_drops()
    {
        // By hand: sin θ = (s/2)/(R + r). 25/(45 + 5) is 1/2; 43.30127/50 is √3/2; equal pins drop at R + r = s/2.
        Assert.Equal(Math.PI / 6, Candidate.Pins(0.01, 0.05).HalfAngle(0.09)!.Value, 1e-12);
        Assert.Equal(Math.PI / 3, Candidate.Pins(0.01, 0.05 * Math.Sqrt(3)).HalfAngle(0.09)!.Value, 1e-12);
        Assert.Null(Candidate.Pins(0.25, 2).HalfAngle(1.75));
        Assert.NotNull(Candidate.Pins(0.25, 2).HalfAngle(1.75 + 1e-12));
        Assert.Equal(0.6, Candidate.Vee(1.2).HalfAngle(0.09));
    }
}
