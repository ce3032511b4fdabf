using System.Text;
using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Explaining;
using Stockseat.Seating.Frames;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>Bodies of other versions, or made up by somebody: the working says what is missing, and nothing fails.</summary>
public sealed class OddBodyTests
{
    [Fact]
    public void An_answer_whose_revision_is_not_the_one_in_force_says_so()
    {
        var bench = Bench.Serving(Revisions.Good());
        var answer = bench.Locate(0.08);

        var working = Working.Of(answer with { Revision = 7 }, bench.Before(answer.Serial), null);

        Sound.Check(working);
        Assert.Equal(["Inputs", "As served"], working.Sections.Select(s => s.Title));
        Assert.Contains("not the one that was in force right before it", working.Words(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_answer_without_a_revision_is_worked_out_with_the_one_in_force()
    {
        var bench = Bench.Serving(Revisions.Good());
        var answer = bench.Locate(0.08);

        var working = Working.Of(answer with { Revision = null, Digest = null }, bench.Before(answer.Serial), null);

        Assert.Contains("the entry itself does not name it", working.Words(), StringComparison.Ordinal);
        Assert.Equal(answer.Position[1], working.Value("Shift and position in base", "y"), 1e-15);
    }

    [Fact]
    public void A_measurement_that_can_t_be_found_is_reported()
    {
        var bench = Bench.Serving(Revisions.Good());
        bench.Measure(0.08);
        var answer = bench.Locate();

        var working = Working.Of(answer, bench.Before(answer.Serial), null);

        Sound.Check(working);
        Assert.Contains("Measurement 2 can't be found", working.Words(), StringComparison.Ordinal);
        Assert.Equal(0.08, working.Value("Inputs", "D"));
    }

    /// <summary>Each value of each body in turn is removed, or replaced with one that no version writes.</summary>
    [Fact]
    public void Nothing_fails_whatever_a_body_lacks()
    {
        var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
        bench.Do(Bench.Push([0.0924, 0.09245], "A1077", terms: new() { Nominal = 0.0925, Plus = 0.001, Minus = 0.001 }));
        bench.Confirm(bench.Locate().Serial, ("by", "0.000001"));
        bench.Confirm(bench.Locate(0.09).Serial, ("by", FixedPoint.Text(bench.Locate(0.09).ShiftBase[1])));
        bench.Refused(Reason.DiameterAboveEnvelope, 0.2);
        bench.Do(new RecheckAsk(Bench.Controller, "pinbed-1") { By = "setter", MasterMetres = 0.08, FoundMetres = default(Vector3) });
        bench.Refused(Reason.NestUnknown, 0.09, column: 77);
        var tried = 0;
        foreach (var entry in bench.Entries)
        {
            foreach (var odd in Odd(entry))
            {
                foreach (var before in new[] { bench.Before(entry.Serial), Situation.Empty })
                {
                    Sound.Check(Working.Of(odd, before, bench.Entries[1] as MeasurementBody, bench.Entries.OfType<AnswerBody>().First() with { Serial = 3 }));
                    tried++;
                }
            }
        }

        Assert.True(tried > 500, $"{tried} bodies were tried");
    }

    private static IEnumerable<EntryBody> Odd(EntryBody entry)
    {
        var text = Encoding.UTF8.GetString(Bench.Bytes(entry));
        foreach (var name in JsonNode.Parse(text)!.AsObject().Select(p => p.Key).Where(k => k is not ("kind" or "v")).ToArray())
        {
            JsonNode?[] others =
            [
                null, JsonValue.Create(""), JsonValue.Create("x"), JsonValue.Create(0), JsonValue.Create(-1), JsonValue.Create(99), JsonValue.Create(1e300),
                new JsonArray(), new JsonArray(1), new JsonObject(),
            ];
            foreach (var other in others)
            {
                var body = JsonNode.Parse(text)!.AsObject();
                body[name] = other?.DeepClone();
                if (Readable(entry.Kind, body) is { } odd)
                {
                    yield return odd;
                }
            }

            var without = JsonNode.Parse(text)!.AsObject();
            without.Remove(name);
            if (Readable(entry.Kind, without) is { } lacking)
            {
                yield return lacking;
            }
        }
    }

    private static EntryBody? Readable(string kind, JsonObject body)
    {
        try
        {
            return BodyJson.Read(kind, Encoding.UTF8.GetBytes(body.ToJsonString()));
        }
        catch (System.Text.Json.JsonException)
        {
            return null; // not a body of this version at all
        }
    }
}
