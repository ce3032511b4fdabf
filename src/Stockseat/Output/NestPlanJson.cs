using System.Text.Json.Nodes;
using Stockseat.Fixtures.Planning;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;

namespace Stockseat.Cli.Output;

/// <summary>Planned nests for machines: metres and radians; what is not known is absent.</summary>
internal static class NestPlanJson
{
    public static JsonObject Of(NestPlanning planning, int shown)
    {
        var question = planning.Question;
        var value = new JsonObject
        {
            ["from"] = question.RangeMetres.From,
            ["to"] = question.RangeMetres.To,
            ["unit"] = "m",
            ["angleUnit"] = "rad",
            ["sensitivityLimit"] = question.Sensitivity,
            ["heldAngleLimit"] = question.HeldRadians,
            ["candidates"] = planning.Judged.Count,
            ["holding"] = planning.Holding,
            ["overlapping"] = planning.Overlapping,
            ["rule"] = NestPlanView.Rule(question),
            ["nests"] = Json.Array(planning.Judged.Take(shown), Of),
        };
        if (question.HasGaps)
        {
            value["gapLimit"] = question.GapMetres;
        }

        return value;
    }

    private static JsonObject Of(JudgedCandidate j)
    {
        var value = Of(j.Candidate);
        value["holds"] = j.Holds;
        value["share"] = j.Share;
        Add(value, "halfAngle", j.HalfAngleRadians);
        Add(value, "contactAngle", j.HeldRadians);
        Add(value, "sensitivity", j.Sensitivity);
        Add(value, "margin", j.MarginRadians);
        Add(value, "shift", j.ShiftMetres);
        Add(value, "face", j.FaceMetres);
        if (j.Gap is { } gap)
        {
            var reading = Of(gap.Reading);
            reading["diameter"] = gap.DiameterMetres;
            value["gap"] = reading;
        }

        if (j.Envelope is { } envelope)
        {
            value["envelope"] = new JsonObject { ["least"] = Of(envelope.Least), ["greatest"] = Of(envelope.Greatest) };
        }
        else if (j.Violated is { } violated)
        {
            value["violated"] = Of(violated);
        }

        return value;
    }

    private static JsonObject Of(Candidate candidate)
    {
        if (candidate.Kind == LocatorKind.Face)
        {
            return new() { ["nest"] = "vee", ["includedAngle"] = candidate.IncludedRadians };
        }

        var value = new JsonObject { ["nest"] = "pins", ["pin"] = candidate.PinDiameterMetres, ["spacing"] = candidate.SpacingMetres };
        if (candidate.Holes is { } holes)
        {
            value["pitches"] = holes;
        }

        return value;
    }

    private static JsonObject Of(EnvelopeEnd end)
    {
        var value = new JsonObject { ["diameter"] = end.DiameterMetres, ["binds"] = Binding.Name(end.Constraint) };
        Add(value, "limit", end.Limit);
        if (end.Gap is { } gap)
        {
            value["gap"] = Of(gap);
        }

        return value;
    }

    private static JsonObject Of(GapReading gap)
    {
        var value = new JsonObject { ["length"] = gap.Metres, ["mine"] = Of(gap.Mine), ["theirs"] = Of(gap.Theirs) };
        if (gap.Jaws != Jaws.None)
        {
            value["jaws"] = gap.Jaws == Jaws.Open ? "open" : "closed";
        }

        return value;
    }

    private static JsonObject Of(Party party)
    {
        var value = new JsonObject { ["kind"] = EnvelopeText.Kind(party.Kind) };
        if (party.Number > 0)
        {
            value["number"] = party.Number;
        }

        if (party is not { Column: 0, Row: 0 })
        {
            value["nest"] = new JsonArray(party.Column, party.Row);
        }

        return value;
    }

    private static void Add(JsonObject value, string key, (double? From, double? To) pair)
    {
        if (pair.From is null && pair.To is null)
        {
            return;
        }

        var both = new JsonObject();
        Add(both, "from", pair.From);
        Add(both, "to", pair.To);
        value[key] = both;
    }

    private static void Add(JsonObject value, string key, double? number)
    {
        if (number is { } known)
        {
            value[key] = known;
        }
    }
}
