using Stockseat.Answers.Asking;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>What a review says of a load that was not followed.</summary>
public sealed class LoadRuleTests
{
    private const string Four = """, "layout": [ { "direction": "u", "count": 4, "pitch": "150 mm" } ]""";

    private static readonly Caller Robot = new(Day.Robot, "demo", null);

    [Fact]
    public async Task A_nest_that_is_picked_twice_is_found_also_when_the_load_began_before_the_minutes()
    {
        using var day = await Day.Begin(Four);
        var load = await Load(day);
        var first = await Pick(day, await Next(day));
        day.Pass(TimeSpan.FromHours(1));
        var again = await At(day, 0);
        var second = await Pick(day, again);

        day.OfFile().One(FindingRule.PickedTwice, load.Serial, first, again.Serial, second).Says(
            "at nest 0,0 of bed was carried out", "nobody said that it was filled again");
    }

    [Fact]
    public async Task A_pick_from_a_nest_without_stock_is_found()
    {
        using var day = await Day.Begin(Four);
        var load = await Load(day, first: 2);
        var answer = await At(day, 3);
        var done = await Pick(day, answer);

        day.Review().One(FindingRule.PickedEmpty, load.Serial, answer.Serial, done).Says($"load {load.Serial} has no raw stock in that nest");
    }

    [Fact]
    public async Task A_place_into_a_nest_with_stock_is_found_when_it_was_received()
    {
        using var day = await Day.Begin(Four);
        var load = await Load(day);
        await At(day, 1, Purpose.Place);
        day.Review().None(FindingRule.PlacedIntoFull);

        var place = await At(day, 1, Purpose.Place);
        await day.Confirm(place);

        day.Review().One(FindingRule.PlacedIntoFull, load.Serial, place.Serial).Says("still had raw stock there");
    }

    [Fact]
    public async Task A_load_that_nobody_ended_is_found_with_the_move_that_was_open()
    {
        using var day = await Day.Begin(Four);
        var first = await Load(day);
        var open = await Next(day);
        var second = await Load(day);

        day.Review().One(FindingRule.LoadNotEnded, first.Serial, open.Serial, second.Serial).Says(
            "had 4 nests left", $"nobody said whether the move of answer {open.Serial} was carried out");
    }

    [Fact]
    public async Task A_load_that_was_followed_gives_no_finding()
    {
        using var day = await Day.Begin(Four);
        await Load(day, first: 2);
        await Pick(day, await Next(day));
        var dropped = await Next(day);
        await day.Do<DroppedBody>(new DroppedAsk(Robot, dropped.Serial));
        await Pick(day, await Next(day));
        await Load(day, first: 2);
        await Pick(day, await Next(day));

        var review = day.Review();
        Assert.All(
            [FindingRule.PickedTwice, FindingRule.PickedEmpty, FindingRule.PlacedIntoFull, FindingRule.LoadNotEnded], rule => review.None(rule));
    }

    [Fact]
    public async Task The_end_of_a_load_is_no_refusal_to_look_at_and_what_stood_in_the_nests_is_told()
    {
        using var day = await Day.Begin(Four);
        var load = await Load(day, first: 2);
        await Pick(day, await Next(day));
        var open = await Next(day);
        await day.Do<DoneBody>(new DoneAsk(Robot, open.Serial) { By = "day setter" });
        await day.Do<RefusalBody>(new LocateAsk(Robot, "bed") { IsNext = true, DiameterMetres = 0.082 });

        var review = day.Review();
        Assert.All([FindingRule.RefusedAndNoAnswer, FindingRule.PickedEmpty, FindingRule.PickedTwice], rule => review.None(rule));
        Assert.Equal(
            $"1 of 2 nests with raw stock are left (load {load.Serial}); answer {open.Serial}, a pick at nest 1,0, is unfinished",
            Assert.Single(day.OfFile(new() { Serial = open.Serial }).Fixtures).Load);
    }

    private static Task<LoadedBody> Load(Day day, int? first = null) => day.Do<LoadedBody>(new LoadedAsk(Robot, "bed") { First = first });

    private static Task<AnswerBody> Next(Day day) => day.Do<AnswerBody>(new LocateAsk(Robot, "bed") { IsNext = true, DiameterMetres = 0.082 });

    private static Task<AnswerBody> At(Day day, int column, Purpose purpose = Purpose.Pick) =>
        day.Do<AnswerBody>(new LocateAsk(Robot, "bed") { Column = column, DiameterMetres = 0.082, Purpose = purpose });

    private static async Task<long> Pick(Day day, AnswerBody answer)
    {
        await day.Confirm(answer);
        return (await day.Done(answer)).Serial;
    }
}
