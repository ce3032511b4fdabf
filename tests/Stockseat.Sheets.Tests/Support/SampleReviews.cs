using System.Globalization;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Sheets.Tests.Support;

/// <summary>Reviews for reports; the events in them are invented.</summary>
internal static class SampleReviews
{
    public const string Pins = "pinbed-1";

    public const string Vees = "veerack-2";

    /// <summary>The worst text that others can send.</summary>
    public const string Hostile = "</td><script>alert('1')</script>\"\u202E\r\n\u0007{}]]>&\uFFFF\uD800";

    /// <summary>The stock was changed and the client stated the previous stock's diameter: the jaws met a larger piece.</summary>
    public static ReviewMaker Ten(string fixtures)
    {
        var maker = new ReviewMaker { Client = "robot-4", Evidence = new(null, null, new(1041, 1050, 3, 2, 5, 9, 0, 1, [], 0, null)) };
        maker.Adopt(fixtures, Pins, 3);
        maker.Seconds = -590;
        maker.Measure(Pins, 88.12, "A1072");
        maker.Seconds = -480;
        var first = maker.Answer(Pins, first: true);
        maker.Seconds = -476;
        maker.Confirm(first);
        maker.Seconds = -200;
        maker.Empty(Pins);
        maker.Seconds = -150;
        var measured = maker.Measure(Pins, 95.46);
        maker.Seconds = -90;
        var refused = maker.Refuse(Pins, "fixture-held", "pinbed-1 is held by Setter 2 since 13:03:01: chips under the bed; release it when the work is done");
        maker.Seconds = -21.5;
        var stated = maker.Answer(Pins, 88.12);
        maker.Seconds = -18;
        var misread = maker.Refuse(Pins, "readback-differs", "bx was read back as 0.003213, -0.003213 was served; stop the program", stated);
        maker.Seconds = 45;
        var held = maker.Add(new HeldBody { Fixture = Pins, By = "Setter 2", Why = "robot ran into the stock of nest 0,0" });
        maker.Seconds = 100;
        maker.Add(
            new SealBody
            {
                Ledger = "5f0c9a52-8a5e-4f2e-9d0b-6a8f7c1b2d3e", Sealed = held.Serial, Head = new('a', 64), Key = new('b', 64), Signature = "MEUCIQ==",
            });

        var s = stated.Answer.Serial;
        maker.Find(
            FindingRule.ReadBackDiffers, Pins, $"Answer {s} was served with bx -3.213 mm; robot-4 read back 3.213 mm.", "The controller moved by other numbers "
                + "than were served.", "Look at what the program does with the answer between reading and use.", s, misread.Serial);
        maker.Find(
            FindingRule.StatedNotMeasured, Pins, $"robot-4 stated 88.12 mm in answer {s}; 95.46 mm was measured 2 min 9 s before (entry {measured.Serial}).",
            "The stock is 7.34 mm larger than the program believed: the jaws come down on it.",
            "Find where the program takes its diameter from, and leave it out of the ask: then the measured one is used.", measured.Serial, s);
        maker.Find(
            FindingRule.RefusedAndNoAnswer, Pins, $"The ask {refused.Serial} was refused (fixture-held), and the next answer came 68 s later only.",
            "The program may have gone on with an old shift.", "Look at what the program does when it is refused.", refused.Serial);
        maker.Find(
            FindingRule.NotConfirmed, Pins, $"Answer {s} was never confirmed.", "Nobody knows which numbers the controller used.",
            "Have the program confirm each answer with a number read back.", s, 1007);
        maker.Summary.AddRange([
            $"pinbed-1 was asked for with 88.12 mm although 95.46 mm lay in the nests: the pick was too low by what 7.34 mm of diameter make.",
            "The nests were refilled 3 min 20 s before the instant and measured; robot-4 then stated the diameter of the lot before.",
            "The answer's read-back differed, too, and the fixture was held 45 s after the instant."]);
        return maker;
    }

    public static Review TenEntries(string fixtures) => Ten(fixtures) is var maker ? maker.Make(maker.Then(Pins)) : null!;

    public static Review None(string fixtures)
    {
        var maker = new ReviewMaker { Evidence = new(null, null, new(0, 0, 0, 0, 0, 0, 0, 0, [], 0, null)) };
        maker.Adopt(fixtures, Pins, 3);
        return maker.Make(maker.Then(Pins));
    }

    /// <summary>Two fixtures at full work, with two changes of lot, and one answer that was never confirmed.</summary>
    public static Review Many(string fixtures, int count = 300)
    {
        var maker = new ReviewMaker { Evidence = new(null, null, new(1041, 1040 + count, count / 2, 2, count / 2, count, 0, 0, [], 0, null)) };
        maker.Adopt(fixtures, Pins, 3);
        maker.Adopt(fixtures, Vees, 2, "Setter 1", "frame fitted to nine touched nests");
        var (random, step) = (new Random(7), 710.0 / count);
        maker.Measure(Pins, 90.31);
        maker.Measure(Vees, 60.08, "B2");
        for (var i = 2; i < count;)
        {
            maker.Seconds = -595 + (step * i);
            var fixture = i % 5 < 3 ? Pins : Vees;
            maker.Client = fixture == Pins ? "robot-4" : "robot-1";
            maker.Tag = i % 4 == 0 ? $"N{i}" : null;
            if (i % 60 == 2 && i > 3)
            {
                maker.Empty(fixture);
                maker.Measure(fixture, (fixture == Pins ? 88 : 58) + (random.NextDouble() * 3), fixture == Pins ? "A1077" : "B2");
                i += 2;
                continue;
            }

            var answer = maker.Answer(fixture);
            i++;
            if (i is 250 or 251)
            {
                maker.Find(
                    FindingRule.NotConfirmed, fixture, $"Answer {answer.Answer.Serial} was never confirmed.", "Nobody knows which numbers the controller used.",
                    "Have the program confirm each answer.", answer.Answer.Serial);
            }
            else if (i < count)
            {
                maker.Seconds += step * 0.6;
                maker.Confirm(answer);
                i++;
            }
        }

        var jumped = maker.Next - 130;
        maker.Find(
            FindingRule.ShiftJump, Vees, $"The shift moved by 2.4 mm from answer {jumped} on.",
            "A jump without a word of other stock is a wrong diameter or a moved fixture.", "Measure the stock again.", jumped);
        maker.Summary.Add($"Nothing was refused; one answer was never confirmed, and the shift of veerack-2 jumped once.");
        return maker.Make(maker.Then(Pins), maker.Then(Vees));
    }

    /// <summary>The clock was set back within the window, and the service was restarted.</summary>
    public static Review ClockSetBack(string fixtures)
    {
        var maker = new ReviewMaker();
        maker.Adopt(fixtures, Pins, 3);
        maker.Measure(Pins, 88.12);
        maker.Seconds = -400;
        maker.Confirm(maker.Answer(Pins));
        maker.Seconds = -100;
        maker.Answer(Pins);
        maker.Seconds = -500;
        var step = maker.Add(new ClockStepBody { Seconds = -402.5, Before = EntryTime.Text(ReviewMaker.At.AddSeconds(-97.5)) });
        maker.Seconds = -300;
        maker.Add(new UncleanStopBody { Last = step.Serial });
        var started = maker.Add(new ServiceStartedBody { Program = "0.1.0", Host = "cellpc-4", Process = 4711 });
        maker.Seconds = -2;
        maker.Answer(Pins);
        maker.Find(
            FindingRule.ClockStep, null, "The clock was set back by 6 min 42.5 s.", "Times before and after don't go together.",
            "Look at what sets the clock of the service's machine.", step.Serial);
        maker.Find(
            FindingRule.Restart, null, "The service was started again after it ended without a clean stop.", "Asks in between had no answer.",
            "Look at the supervisor's log.", started.Serial);
        maker.Summary.Add("The clock was set back and the service restarted before the pick.");
        return maker.Make(maker.Then(Pins));
    }

    /// <summary>The worst text of others, wherever there is text; an entry that can't be read; a hold and a missed recheck.</summary>
    public static Review HostileTexts(string fixtures)
    {
        var maker = new ReviewMaker { Client = Hostile, Tag = Hostile };
        maker.Adopt(fixtures, Pins, 3, Hostile, Hostile);
        maker.Measure(Pins, 88.12, Hostile, Hostile);
        maker.Answer(Pins);
        maker.Seconds = -300;
        maker.Refuse(Hostile, Hostile, Hostile);
        var held = maker.Add(new HeldBody { Fixture = Hostile, By = Hostile, Why = Hostile });
        maker.Add(new ServiceStartedBody { Program = Hostile, Host = Hostile, Process = 1 });
        maker.Add(new ReleasedBody { By = Hostile, Why = Hostile, Of = Hostile, Left = 0 });
        maker.Add(new RevisionRejectedBody { File = Hostile, Faults = [Hostile, Hostile] });
        var missed = maker.Add(Missed());
        maker.Add(new NoteBody { Fixture = Hostile, By = Hostile, Text = Hostile, Entry = held.Serial });
        maker.Add(new EmptiedBody { Fixture = Hostile }, readable: false, kind: Hostile);
        maker.Find(FindingRule.RecheckMissed, Hostile, Hostile, Hostile, Hostile, missed.Serial);
        maker.Summary.Add(Hostile);
        maker.Evidence = new(
            Hostile, new(3, Hostile, 2, Hostile, [new(1, "hash", Hostile)], [Hostile], Hostile),
            new(1, 2, 1, 1, 1, 1, 0, 0, [new(1042, Hostile, Hostile, [])], 0, Hostile));
        var review = maker.Make(
            maker.Then(Pins, missed, new StandingHold(Hostile, Hostile, held.Serial, ReviewMaker.At)), new FixtureThen { Fixture = Hostile });
        return review with
        {
            Changes = [new(missed.Serial, Hostile, 2, 3, [new(Hostile, Hostile, Hostile, Hostile)])], Ledger = Hostile, HeadHash = Hostile, 
            Question = review.Question with { Fixture = Hostile, Cell = Hostile },
        };
    }

    public static RecheckBody Missed() => new()
    {
        Fixture = Pins, Revision = 3, By = Hostile, Note = Hostile, Master = 0.09, Nest = [2, 1], Predicted = [0, 0, 0], Found = [0, 0, 0.0004],
        MissBase = [0, 0, 0.0004],
        Miss = new() { Along = 0.0004, Across = 0, OutOfPlan = 0 }, Limit = 0.0002, Passed = false, RefuseAfterMiss = true,
    };

}
