using System.Globalization;
using System.Text;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Lines.Forms;

/// <summary>Sample replies, as a client with a form gets them, and what to consider when writing a program for them.</summary>
/// <param name="Answer">An answer to locate, without its line end.</param>
/// <param name="Done">An ok to a confirmation.</param>
/// <param name="Refused">A refusal.</param>
/// <param name="Advice">A sentence each.</param>
public sealed record FormSample(string Answer, string Done, string Refused, IReadOnlyList<string> Advice)
{
    private const string Tag = "17";

    /// <summary>92.40 mm stock in the demo's tilted bed of pins: a shift of 8.213 mm up the slope, which has three components in base.</summary>
    private static readonly AnswerBody Invented = new()
    {
        Serial = 6,
        Fixture = "pinbed-1",
        Revision = 3,
        Purpose = "pick",
        Nest = [0, 0],
        Diameter = 0.0924,
        First = true,
        StandOff = 0.0003,
        Position = [0.407569, -0.198692, 0.1203],
        Orientation = [0.134164, -0.939149, -0.31305, 0.044721],
        ShiftBase = [-0.004731, 0.006308, 0.0023],
        ShiftOrigin = [0, -0.008213, 0],
    };

    /// <summary>The sample of a form.</summary>
    public static FormSample Of(Form form)
    {
        var answer = Invented with { Decimals = form.Decimals, Unit = form.Unit == ServedUnit.Metre ? null : form.Unit.Name() };
        var confirmation = new ConfirmationBody
        {
            Serial = 7, Fixture = answer.Fixture, Confirms = answer.Serial, Purpose = answer.Purpose, ShiftBase = answer.ShiftBase,
        };
        var refusal = Refusal.Of(Reason.MeasurementMissing, "pinbed-1 has no valid measurement: none was pushed");
        return new(
            Text(form, LineReply.Ok(form, form.Echoed(Tag), answer)),
            Text(form, LineReply.Ok(form, form.Echoed(Tag), confirmation)),
            Text(form, LineReply.Refused(form, Tag, refusal)),
            [Lengths(form), .. Firsts(form), .. Tags(form), BareNumbers(form)]);
    }

    private static string Text(Form form, LineReply reply) => Encoding.ASCII.GetString(reply.Bytes.Span[..^form.LineEnd.Length]);

    private static string Lengths(Form form)
    {
        var longest = new[] { form.Answer, form.Done, form.Refused }.OfType<FormTemplate>().Max(form.LongestOf).ToString(CultureInfo.InvariantCulture);
        return form.Refused is null
            ? $"The longest answer has {longest} characters without its line end; the text of a refusal may be longer."
            : $"The longest of these replies has {longest} characters without its line end.";
    }

    private static IEnumerable<string> Firsts(Form form) => form.Answer.Fields.Any(f => f.Name is "first" or "firstnumber")
        ? []
        : ["This form does not show which answers are marked first ({first}, or {firstnumber} with 1 or 0, is not in Ok): run every answer at reduced speed, "
            + "with people clear."];

    private static IEnumerable<string> Tags(Form form) => form.Answer.Fields.Any(f => f.Name == "tag")
        ? []
        : ["This form does not repeat the tag of an ask ({tag} is not in Ok): a program that reads a late reply to an ask before can't tell it from its own. "
            + "Add {tag}, or close the connection after every ask that was not answered in time."];

    private static string BareNumbers(Form form) => form.BareUnit is { } unit
        ? $"A length sent without a unit is read in {unit}; a stated unit always takes precedence."
        : "A length sent without a unit is refused.";
}
