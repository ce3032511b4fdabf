using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Reading;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Which minutes a review covers, by its options.</summary>
internal sealed class ReviewOptions
{
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(1_000_000);

    private readonly Option<ReviewQuestion> _at = new("--at")
    {
        HelpName = "INSTANT|SERIAL", Required = true, CustomParser = At,
        Description = "the time: 2026-11-25T08:00:00Z, 2026-11-25T09:00:00+01:00, or in local time 2026-11-25T09:00:00; or the serial of an entry",
    };

    private readonly Option<TimeSpan> _before = Span("--before", "how much time before it to show", ReviewQuestion.UsualBefore);
    private readonly Option<TimeSpan> _after = Span("--after", "how much time after it to show", ReviewQuestion.UsualAfter);
    private readonly Option<string?> _fixture = new("--fixture") { HelpName = "FIXTURE", Description = "only what concerns this fixture" };
    private readonly Option<string?> _cell =
        new("--cell") { HelpName = "CELL", Description = "only what concerns the fixtures that this cell's clients asked for" };
    private readonly Option<double?> _jump = new("--jump")
    {
        HelpName = "LENGTH", CustomParser = r => Common.Length(r),
        Description = "reports a shift that changed by more than this although no change of stock was reported; "
            + $"{LengthUnit.Millimetre.Text(ReviewQuestion.UsualJumpMetres)} unless stated",
    };

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (var option in new Option[] { _at, _before, _after, _fixture, _cell, _jump })
        {
            command.Options.Add(option);
        }
    }

    public ReviewQuestion Of(ParseResult parsed) => parsed.GetValue(_at)! with
    {
        Before = parsed.GetValue(_before),
        After = parsed.GetValue(_after),
        Fixture = parsed.GetValue(_fixture),
        Cell = parsed.GetValue(_cell),
        JumpMetres = parsed.GetValue(_jump) ?? ReviewQuestion.UsualJumpMetres,
    };

    /// <summary>The same for the service.</summary>
    public static ReviewRequest Request(ReviewQuestion q, VerifyDemands? demands)
    {
        var request = new ReviewRequest
        {
            At = q.At is { } at ? EntryTime.Text(at) : "", BeforeSeconds = q.Before.TotalSeconds, AfterSeconds = q.After.TotalSeconds,
            Fixture = q.Fixture ?? "", Cell = q.Cell ?? "", JumpMetres = q.JumpMetres, Verify = demands?.Request(),
        };
        if (q.Serial is { } serial)
        {
            request.Serial = serial;
        }

        return request;
    }

    private static ReviewQuestion? At(ArgumentResult result)
    {
        var text = result.Tokens[^1].Value;
        if (long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var serial))
        {
            return new() { Serial = serial };
        }

        if (InstantText.Read(text, TimeZoneInfo.Local, out var at) is not { } fault)
        {
            return new() { At = at };
        }

        result.AddError($"--at '{Plain.Text(text)}' {fault}, or the serial of an entry");
        return null;
    }

    private static Option<TimeSpan> Span(string name, string what, TimeSpan usual) => new(name)
    {
        HelpName = "TIME", Description = $"{what}, such as 90s, 2min, 1.5h or 00:02:00", DefaultValueFactory = _ => usual, CustomParser = r => Span(r, name),
    };

    private static TimeSpan Span(ArgumentResult result, string name)
    {
        var text = result.Tokens[^1].Value;
        if (Read(text) is { } span && span <= Longest)
        {
            return span;
        }

        result.AddError(
            $"{name} is '{Plain.Text(text)}'; a time with its unit, s, min or h, such as 90s or 2min, or hours:minutes:seconds such as 00:02:00, up to "
                + $"{Longest.TotalSeconds:0} s was expected");
        return default;
    }

    private static TimeSpan? Read(string text)
    {
        if (TimeSpan.TryParseExact(text, @"hh\:mm\:ss", CultureInfo.InvariantCulture, out var exact))
        {
            return exact;
        }

        (string Unit, double Seconds)[] units = [("min", 60), ("h", 3600), ("s", 1)];
        foreach (var (unit, seconds) in units)
        {
            if (text.EndsWith(unit, StringComparison.Ordinal)
                && double.TryParse(text[..^unit.Length].TrimEnd(' '), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
                && number * seconds <= Longest.TotalSeconds)
            {
                return TimeSpan.FromSeconds(number * seconds);
            }
        }

        return null;
    }
}
