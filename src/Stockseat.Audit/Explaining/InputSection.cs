using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Fixtures.Revisions;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>The inputs of an answer or a refusal.</summary>
internal static class InputSection
{
    public const string Title = "Inputs";

    /// <summary>The inputs of a locate.</summary>
    public static WorkingSection Of(Located located)
    {
        var steps = new Steps(Title);
        Entry(steps, located.Entry);
        Calibration(steps, located);
        steps.Say(
            $"Purpose: {located.PurposeName ?? "not recorded, so a pick is assumed"}; "
                + $"{(located.Nest is { } nest ? $"nest {Whole(nest.Column)},{Whole(nest.Row)}" : "the nest is not recorded")}.");
        if (located.Entry is ServedBody { Load: { } load, Left: var left, Purpose: var purpose })
        {
            steps.Say(
                $"The nest was chosen as the next of load {Whole(load)}, row by row: "
                    + $"{(purpose == "place" ? "the first empty one" : "the first with raw stock")}; "
                    + $"{Whole(left ?? 0)} left after it.");
        }

        Diameter(steps, located);
        if (located.StandOff is { } standOff)
        {
            steps.Given("g", $"the stand-off for a {located.Purpose.Name()}", Metre, standOff);
        }

        if (located.Revision is { } revision)
        {
            var taught = steps.Given("D_t", "the diameter that the origin was taught with", Metre, revision.TaughtDiameterMetres);
            steps.Make("R_t", "its radius", "D_t / 2", Metre, taught / 2);
        }

        Asked(steps, located);
        return steps.Section;
    }

    /// <summary>Which entry it is, its fixture, and who asked.</summary>
    public static void Entry(Steps steps, EntryBody entry)
    {
        steps.Given("serial", $"the entry, of kind {entry.Kind}", One, entry.Serial);
        steps.Say($"Decided at {Said(entry.At)}.");
        steps.Say($"Asked by {Said(entry.Client)}, cell {Said(entry.Cell)}, from {Said(entry.Address)}, tag {Said(entry.Tag)}, request {Said(entry.Request)}.");
        if (entry.Certificate is { } pin)
        {
            steps.Say($"Proven by a certificate with the key {pin}.");
        }

        steps.Say($"Fixture {Said(entry.Fixture)}, revision {(entry.Revision is { } number ? Whole(number) : "not recorded")}, digest {Said(entry.Digest)}.");
    }

    /// <summary>The readings of a measurement and their mean.</summary>
    public static void Readings(Steps steps, IReadOnlyList<double>? readings, double diameter)
    {
        for (var i = 0; i < (readings?.Count ?? 0); i++)
        {
            steps.Given($"d{Whole(i + 1)}", $"reading {Whole(i + 1)}", Metre, readings![i]);
        }

        if (readings is not { Count: > 0 })
        {
            steps.Say("The readings are not recorded.");
            steps.Given("D", "the diameter, as recorded", Metre, diameter);
        }
        else
        {
            var mean = steps.Make(
                "D", "the diameter: the mean of the readings", readings.Count == 1 ? "d1" : $"(d1 + ... + d{Whole(readings.Count)}) / {Whole(readings.Count)}",
                Metre, Mean(readings));
            if (readings.Count > 1)
            {
                steps.Make(
                    "s(readings)", "the standard deviation of the readings",
                    $"sqrt(((d1 - D)^2 + ... + (d{Whole(readings.Count)} - D)^2) / ({Whole(readings.Count)} - 1))", Metre,
                    Math.Sqrt(readings.Sum(r => (r - mean) * (r - mean)) / (readings.Count - 1)));
            }

            if (diameter != mean)
            {
                steps.Say($"The recorded diameter differs: {M(diameter)} m.");
            }
        }
    }

    /// <summary>The diameters of a lot.</summary>
    public static void Lot(Steps steps, string? name, LotTerms? terms)
    {
        if (terms is not { Least: { } least, Greatest: { } greatest })
        {
            steps.Say(
                name is null ? "No lot is named."
                    : terms is null ? $"Lot {name}: nothing is recorded about it."
                    : $"Lot {name}: it states no nominal and tolerance, so any diameter may belong to it.");
            return;
        }

        steps.Say($"Lot {Said(name)}, {(terms.Tolerance is null ? "by plus and minus" : $"tolerance {terms.Tolerance}")}.");
        steps.Given("D_nominal(lot)", "the lot's nominal diameter", Metre, terms.Nominal!.Value);
        steps.Given("plus(lot)", "how far above the nominal a diameter may be", Metre, terms.Plus!.Value);
        steps.Given("minus(lot)", "how far below the nominal a diameter may be", Metre, terms.Minus!.Value);
        steps.Make("D_least(lot)", "the least diameter of the lot", "D_nominal(lot) - minus(lot)", Metre, least);
        steps.Make("D_greatest(lot)", "the greatest diameter of the lot", "D_nominal(lot) + plus(lot)", Metre, greatest);
    }

    /// <summary>A gauge's limits.</summary>
    public static void Gauge(Steps steps, string? gauge, GaugeLimits? limits)
    {
        steps.Say(gauge is null ? "No gauge is named." : $"Gauge {gauge}.");
        Stated(steps, "E(gauge)", "the gauge's limits of error, +/-", limits?.LimitsOfError, "LimitsOfError");
        Stated(steps, "step(gauge)", "the gauge's resolution", limits?.Resolution, "Resolution");
        Stated(steps, "s(gauge)", "the gauge's repeatability: the standard deviation of one reading", limits?.Repeatability, "Repeatability");
    }

    /// <summary>A text of a body, or that it is not recorded.</summary>
    public static string Said(string? text) => string.IsNullOrEmpty(text) ? "not recorded" : text;

    private static void Stated(Steps steps, string symbol, string text, double? value, string key)
    {
        if (value is { } stated)
        {
            steps.Given(symbol, text, Metre, stated);
        }
        else
        {
            steps.Say($"The gauge's {key} is not stated.");
        }
    }

    private static double Mean(IReadOnlyList<double> readings) => Math.Clamp(readings.Sum() / readings.Count, readings.Min(), readings.Max());

    private static void Calibration(Steps steps, Located located)
    {
        if (located.Revision is { } revision)
        {
            steps.Say(
                $"Revision {Whole(revision.Number)} of {revision.Fixture} was in force, adopted by entry "
                    + $"{Whole(located.State!.AdoptedBy)}{(located.Entry.Revision is null ? "; the entry itself does not name it" : "")}.");
        }
        else
        {
            steps.Say(located.State?.InForce is { } other
                ? $"The revision that the entry names is not the one that was in force right before it, {Whole(other.Number)} with digest {other.Digest}: "
                + "what depends on it can't be computed."
                : "No revision was in force right before it, as far as the ledger knows: what depends on a revision can't be computed.");
        }
    }

    private static void Diameter(Steps steps, Located located)
    {
        if (located.Measurement is { } serial)
        {
            Measurement(steps, located, serial);
        }
        else if (located.Diameter is { } stated)
        {
            steps.Given("D", "the diameter, which the client stated", Metre, stated);
        }
        else
        {
            steps.Say("No diameter was stated or found.");
        }

        if (located.Diameter is { } diameter)
        {
            steps.Make("R", "the radius", "D / 2", Metre, diameter / 2);
        }
    }

    private static void Measurement(Steps steps, Located located, long serial)
    {
        steps.Given("measurement", "the entry that the diameter comes from", One, serial);
        if (located.Measured is not { } measured)
        {
            steps.Say($"Measurement {Whole(serial)} can't be found: its readings are not known here.");
            if (located.Diameter is { } used)
            {
                steps.Given("D", "the measured diameter, as recorded with the ask", Metre, used);
            }

            Gauge(steps, located.From?.Gauge, located.From?.Limits);
            return;
        }

        Readings(steps, measured.Readings, located.Diameter ?? measured.Diameter);
        Gauge(steps, measured.Gauge, measured.Limits);
        if (Instant(located.Entry.At) is { } at && Instant(measured.At) is { } then)
        {
            // As in the entry: never below 0, to a microsecond.
            var age = steps.Make(
                "age", "how old the measurement was", $"{located.Entry.At} - {measured.At}", Second, Math.Max(0, Math.Round((at - then).TotalSeconds, 6)));
            steps.Given("fresh", "how long it may be used", Second, measured.FreshFor);
            steps.Compare("age", age, "fresh", measured.FreshFor, Second);
        }
        else
        {
            steps.Say("How old the measurement was is not known: an instant is not recorded.");
        }
    }

    private static void Asked(Steps steps, Located located)
    {
        if (located.Lot is not null)
        {
            Lot(steps, located.Lot, located.LotTerms);
        }

        if (located is { LotTerms: { Least: { } least, Greatest: { } greatest }, Diameter: { } diameter })
        {
            steps.Compare("D", diameter, "D_least(lot)", least, Metre, most: false, Rounding.Metres);
            steps.Compare("D", diameter, "D_greatest(lot)", greatest, Metre, most: true, Rounding.Metres);
        }

        if (located is { Nominal: { } nominal, Within: { } within })
        {
            steps.Given("D_nominal", "the nominal diameter asked for", Metre, nominal);
            steps.Given("within", "how far from it the diameter may be", Metre, within);
            if (located.Diameter is { } used)
            {
                var miss = steps.Make("|D - D_nominal|", "how far the diameter is from the nominal", "|D - D_nominal|", Metre, Math.Abs(used - nominal));
                steps.Compare("|D - D_nominal|", miss, "within", within, Metre, most: true, Rounding.Metres);
            }
        }
    }
}
