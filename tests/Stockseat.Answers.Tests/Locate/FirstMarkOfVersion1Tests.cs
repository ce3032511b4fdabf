using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Locate;

/// <summary>The rules of version 1, by which answers in older ledgers were marked: they have to come out again.</summary>
public sealed class FirstMarkOfVersion1Tests
{
    private readonly Bench _bench = Bench.ServingBy(1, Revisions.Good());

    [Fact]
    public void After_an_adoption_every_answer_is_marked_first_until_it_is_confirmed()
    {
        Assert.True(_bench.Locate(0.09).First);
        var answer = _bench.Locate(0.09);
        Assert.True(answer.First);

        Assert.IsType<ConfirmationBody>(_bench.Confirm(answer.Serial));

        Assert.False(_bench.Locate(0.09).First);
    }

    [Fact]
    public void Without_a_limit_any_change_of_the_shift_is_marked_first()
    {
        _bench.Confirm(_bench.Locate(0.09).Serial);

        Assert.True(_bench.Locate(0.09 + 1e-9).First);
        Assert.False(_bench.Locate(0.09).First);
    }

    [Fact]
    public void Another_nest_with_the_same_shift_is_not_marked_first()
    {
        var bench = Bench.ServingBy(1, Revisions.Demo("pinbed-1/r0003.json"));
        bench.Confirm(bench.Locate(0.09).Serial);

        Assert.False(bench.Locate(0.09, column: 3, row: 2).First);
    }

    [Fact]
    public void With_a_limit_the_change_of_the_shift_counts()
    {
        var bench = Bench.ServingBy(1, Revisions.Good(nest: """{ "vee": { "includedAngle": "90 deg" } }""", limits: """{ "firstAbove": "1 mm" }"""));
        bench.Confirm(bench.Locate(0.09).Serial);

        // The shift grows by 1/sqrt(2) of the diameter: 1 mm at 1.4142 mm.
        Assert.False(bench.Locate(0.09 + 0.00141).First);
        Assert.False(bench.Locate(0.09 - 0.00141).First);
        Assert.True(bench.Locate(0.09 + 0.00142).First);
        Assert.True(bench.Locate(0.09 - 0.00142).First);
    }

    [Fact]
    public void Pick_and_place_are_confirmed_separately()
    {
        var bench = Bench.ServingBy(1, Revisions.Good(standOff: "0.5 mm")); // the same shift for both purposes
        bench.Confirm(bench.Locate(0.09).Serial);

        Assert.False(bench.Locate(0.09).First);
        var place = bench.Locate(0.09, purpose: Purpose.Place);
        Assert.True(place.First);
        bench.Confirm(place.Serial);
        Assert.False(bench.Locate(0.09, purpose: Purpose.Place).First);
    }

    [Fact]
    public void A_new_adoption_makes_the_next_answer_marked_first()
    {
        var bench = Bench.ServingBy(1, Revisions.Good(1));
        var old = bench.Locate(0.09);
        bench.Confirm(old.Serial);
        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Good(2)));
        Assert.False(bench.Locate(0.09).First);
        Assert.IsType<RevisionAdoptedBody>(bench.Adopt(2));

        Assert.True(bench.Locate(0.09).First);
        bench.Confirm(old.Serial); // a confirmation of the old revision: it says nothing about the new one
        Assert.True(bench.Locate(0.09).First);
    }

    [Fact]
    public void A_refused_confirmation_confirms_nothing()
    {
        var answer = _bench.Locate(0.09);
        Assert.IsType<RefusalBody>(_bench.Confirm(answer.Serial, ("by", "0.1")));

        Assert.True(_bench.Locate(0.09).First);
    }

    [Fact]
    public void Restarts_keep_the_mark()
    {
        _bench.Restart();
        var answer = _bench.Locate(0.09);
        Assert.True(answer.First);
        _bench.Confirm(answer.Serial);
        _bench.Restart();

        Assert.False(_bench.Locate(0.09).First);
        Assert.True(_bench.Locate(0.09, purpose: Purpose.Place).First);
    }

    [Fact]
    public void An_answer_from_before_an_adoption_of_the_same_number_confirms_nothing()
    {
        var bench = Bench.ServingBy(1, Revisions.Good(1));
        var before = bench.Locate(0.0924);
        Assert.IsType<RevisionAdoptedBody>(bench.Adopt(1));

        Assert.IsType<ConfirmationBody>(bench.Confirm(before.Serial));

        Assert.True(bench.Locate(0.0924).First);
    }
}
