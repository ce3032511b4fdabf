using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using NSubstitute;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Lines;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Tests.Lines.Forms;

/// <summary>The text made from a template, for any answer and any refusal.</summary>
public partial class FormReplyTests
{
    private static readonly Form Semicolons = new()
    {
        Name = "semicolons",
        Ok = Template("ok;{serial};{bx};{by};{bz};end", FormField.OfOk),
        Done = Template("ok;{serial};end", FormField.OfDone),
        Refused = Template("refused;{reason}", FormField.OfRefused),
    };

    private static readonly Form Everything = Semicolons with
    {
        Name = "everything",
        Ok = Template($"ok|{string.Join('|', FormField.OfOk.Select(f => $"{{{f.Name}}}"))}|end", FormField.OfOk),
        Done = Template($"ok|{string.Join('|', FormField.OfDone.Select(f => $"{{{f.Name}}}"))}|end", FormField.OfDone),
        Refused = Template("refused|{tag}|{class}|{reason}|{number}", FormField.OfRefused),
    };

    private static readonly Gen<Form> AnyForm = Gen.Select(
        Gen.OneOf(Gen.Const(Semicolons), Gen.Const(Everything), Gen.Const(Form.Short)),
        Gen.OneOf(Gen.Select(Gen.Const(ServedUnit.Metre), Gen.Int[4, 12]), Gen.Select(Gen.Const(ServedUnit.Millimetre), Gen.Int[1, 12]),
            Gen.Const((ServedUnit.Micrometre, 0))),
        Gen.Int[0, 24],
        (form, number, width) => form.Longest is null ? form with { Unit = number.Item1, Decimals = number.Item2, Width = width } : form);

    private static readonly Gen<double> Metres = Gen.OneOf(Gen.Double[-999, 999], Gen.Double[-0.1, 0.1],
        Gen.OneOf(((double[])[0, -0.0, 999, -999, 1e-13, -1e-13, 0.008213]).Select(Gen.Const).ToArray()));

    private static readonly Gen<AnswerBody> AnyAnswer = Gen.Select(
        Gen.OneOf(Gen.Long[1, long.MaxValue], Gen.Const(long.MaxValue)), Metres.Array[9], Gen.Double[-1, 1].Array[4], Gen.Bool, Gen.Long[0, long.MaxValue],
        Gen.Int[0, 999_999],
        (serial, m, q, flag, measurement, column) => new AnswerBody
        {
            Serial = serial, Fixture = flag ? "pinbed-1" : new string('f', 63), Revision = flag ? 3 : int.MaxValue, Purpose = flag ? "pick" : "place",
            Nest = [column, 999_999],
            Diameter = flag ? 0.0924 : 10, Measurement = flag ? measurement : null, Age = flag ? 31_622_400.5 : null, First = flag, StandOff = 0,
            Position = m[..3], Orientation = q, ShiftBase = m[3..6], ShiftOrigin = m[6..],
        });

    [Fact]
    public void No_reply_is_longer_than_the_calculated_maximum() => Gen.Select(AnyForm, AnyAnswer, Gen.Int[1, 40]).Sample((form, answer, length) =>
    {
        var tag = new string('t', Math.Min(length, form.LongestTag));
        var reply = Locate(form, answer, tag);
        Assert.InRange(reply.Length, 1, form.LongestOf(form.Ok!));
        Assert.InRange(reply.Length, 1, form.Longest ?? int.MaxValue);
        Assert.StartsWith("ok", reply, StringComparison.Ordinal);
        Assert.EndsWith("end", reply, StringComparison.Ordinal);
    }, iter: 500);

    [Fact]
    public void The_calculated_maximum_does_occur()
    {
        var far = new AnswerBody
        {
            Serial = long.MaxValue, Fixture = new string('f', 63), Revision = int.MaxValue, Purpose = "place", Nest = [999_999, 999_999], Diameter = 10,
            Measurement = long.MaxValue,
            Age = 9_999_999_999, First = true, StandOff = 0, Position = [-999, -999, -999], Orientation = [-1, -1, -1, -1], ShiftBase = [-999, -999, -999],
            ShiftOrigin = [-999, -999, -999],
        };

        Assert.Equal(80, Locate(Form.Short, far, new('t', 16)).Length);
        Assert.Equal(80, Form.Short.LongestOf(Form.Short.Ok!));
        Assert.Equal(Semicolons.LongestOf(Semicolons.Ok!), Locate(Semicolons, far, null).Length);
    }

    [Fact]
    public void The_numbers_of_a_reply_are_the_served_numbers_in_unit_and_decimals() => Gen.Select(AnyForm, AnyAnswer).Sample((form, answer) =>
    {
        var values = Values(form.Ok!, Locate(form, answer, "t"), form.Longest is null ? form.Ok!.Text[2] : ' ');
        foreach (var field in form.Ok!.Fields.Where(f => f.Kind is FieldKind.Length or FieldKind.Orientation))
        {
            var text = values[field.Name];
            if (!answer.TryNumber(field.Name, out var served))
            {
                Assert.Equal("-".PadLeft(form.Width), text); // An uncertainty, which these answers do not have.
                continue;
            }

            Assert.InRange(text.Length, Math.Max(form.Width, 1), form.LongestOf(field));
            Assert.Matches(form.Decimals == 0 ? @"\A *-?\d+\z" : $@"\A *-?\d+\.\d{{{form.Decimals}}}\z", text);

            // Decimal arithmetic of the test's own: off by half of the last decimal at most, plus what 15 digits of a double leave open.
            var exact = (decimal)served * (field.Kind == FieldKind.Orientation
                ? 1 : form.Unit switch { ServedUnit.Metre => 1, ServedUnit.Millimetre => 1_000, _ => 1_000_000 });
            var off = Math.Abs(decimal.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture) - exact);
            Assert.InRange(off, 0m, (0.5m / (decimal)Math.Pow(10, form.Decimals)) + (Math.Abs(exact) * 2e-14m));
        }
    }, iter: 500);

    [Fact]
    public void A_missing_number_is_padded_too_so_that_nothing_moves()
    {
        var form = Everything with { Width = 14 };
        var known = Simple() with { Uncertainty = new() { Along = 0.0002, Across = 0.0003 } };

        Assert.Equal(Locate(form, known, null).IndexOf("end", StringComparison.Ordinal), Locate(form, Simple(), null).IndexOf("end", StringComparison.Ordinal));
        Assert.Equal("ok|-|7|-|             -|5|end",
            Reply(form, "confirm serial=5", new ConfirmationBody { Serial = 7, Confirms = 5, Purpose = "pick", ShiftBase = [0, 0, 0] }));
    }

    [Fact]
    public void An_uncertainty_too_large_for_its_field_is_not_sent() => Assert.StartsWith(
        "refused", Locate(Everything, Simple() with { Uncertainty = new() { Along = 1e7, Across = 0.0003 } }, null), StringComparison.Ordinal);

    [Fact]
    public void A_missing_value_is_a_hyphen_so_that_positions_stay()
    {
        var values = Values(Everything.Ok!, Locate(Everything, Simple(), null), '|');

        Assert.Equal(("-", "-", "-"), (values["tag"], values["measurement"], values["age"]));
        Assert.Equal(("5", "pinbed-1", "3", "pick", "2,1", "2", "1", "0.092400", "m", "yes", "0.008213"), (
            values["serial"], values["fixture"], values["revision"], values["purpose"], values["nest"], values["column"], values["row"], values["diameter"],
            values["unit"], values["first"], values["by"]));
        Assert.Equal("ok|-|7|-|-|5|end", Reply(Everything, "confirm serial=5", new ConfirmationBody { Serial = 7, Confirms = 5, Purpose = "pick",
            ShiftBase = [0, 0, 0] }));
        Assert.Equal("ok|a|8|pinbed-1|0.092400|-|end",
            Reply(Everything, "measured fixture=pinbed-1 diameter=92.4mm tag=a",
            new MeasurementBody { Serial = 8, Fixture = "pinbed-1", Diameter = 0.0924, Readings = [], FreshFor = 1 }));
    }

    [Fact]
    public void A_refusal_never_has_as_many_numbers_as_an_answer()
    {
        foreach (var form in (Form[])[Semicolons, Everything, Form.Short])
        {
            var (numbers, longest) = (Numbers(Locate(form, Simple(), null)), 0);
            Assert.True(numbers >= 4, $"{form.Name}: an answer has only {numbers} numbers");
            foreach (var reason in Enum.GetValues<Reason>().Where(r => r != Reason.None))
            {
                var reply = Encoding.ASCII.GetString(LineReply.Refused(form, new('1', form.LongestTag), Refusal.Of(reason, "1 2 3 4 5 6 7 8")).Bytes.Span)
                    .TrimEnd('\n');
                Assert.StartsWith("refused", reply, StringComparison.Ordinal);
                Assert.InRange(Numbers(reply), 0, numbers - 1);
                longest = Math.Max(longest, reply.Length);
            }

            Assert.InRange(form.LongestOf(form.Refused!) - longest, 0, "request".Length - "cell".Length);
        }
    }

    [Fact]
    public void A_length_too_large_for_its_field_is_not_sent() => Assert.Equal(
        "refused t service internal-failure", Locate(Form.Short, Simple() with { Position = [0, 1_000, 0] }, "t"));

    [Fact]
    public void A_named_form_in_millimetres_says_so()
    {
        var form = Form.Named with { Unit = ServedUnit.Millimetre, Decimals = 4 };

        Assert.Contains(" diameter=92.4000 unit=mm first=yes ", Locate(form, Simple(), null), StringComparison.Ordinal);
        Assert.Contains(" qw=0.0000 qx=1.0000 qy=0.0000 qz=0.0000 bx=0.0000 by=8.2130 ", Locate(form, Simple(), null), StringComparison.Ordinal);
        Assert.Equal("ok serial=8 fixture=f diameter=92.4000 unit=mm",
            Reply(form, "measured fixture=f diameter=92.4mm",
            new MeasurementBody { Serial = 8, Fixture = "f", Diameter = 0.0924, Readings = [], FreshFor = 1 }));
    }

    private static AnswerBody Simple() => new()
    {
        Serial = 5, Fixture = "pinbed-1", Revision = 3, Purpose = "pick", Nest = [2, 1], Diameter = 0.0924, First = true, StandOff = 0,
        Position = [0.4123, -0.196787, 0.118], Orientation = [0, 1, 0, 0], ShiftBase = [0, 0.008213, 0], ShiftOrigin = [0, -0.008213, 0],
    };

    private static string Locate(Form form, AnswerBody answer, string? tag) => Reply(
        form, $"locate fixture=f diameter=92.4mm{(tag is null ? "" : $" tag={tag}")}",
        answer with { Tag = tag, Decimals = form.Decimals, Unit = form.Unit == ServedUnit.Metre ? null : form.Unit.Name() });

    private static string Reply(Form form, string line, EntryBody entry)
    {
        var answerer = Substitute.For<IAnswerer>();
        answerer.Shown.Returns(LengthUnit.Millimetre);
        answerer.Ask(Arg.Any<Ask>()).Returns(AskOutcome.Of(entry));
        var client = new Client { Name = "c", From = [IPNetwork.Parse("127.0.0.0/8")], Roles = Roles.All, Form = form };
        var conversation = new LineConversation(answerer, client, new("c", null, null), TimeProvider.System);
        var reply = conversation.Reply(line).Within($"the reply to {line}").GetAwaiter().GetResult();
        return Encoding.ASCII.GetString(reply.Bytes.Span)[..^form.LineEnd.Length];
    }

    /// <summary>Reads a reply by positions, as a controller does, using the template and the separator.</summary>
    private static Dictionary<string, string> Values(FormTemplate template, string reply, char separator)
    {
        var (parts, fields) = (reply.Split(separator), template.Fields.ToList());
        Assert.Equal(fields.Count + 2, parts.Length);
        return fields.Select((f, i) => (f.Name, Value: parts[i + 1])).ToDictionary(p => p.Name, p => p.Value);
    }

    /// <summary>How many numbers a simple program finds.</summary>
    private static int Numbers(string reply) => Number().Count(reply);

    private static FormTemplate Template(string text, IReadOnlyList<FormField> fields)
    {
        var faults = new List<string>();
        return FormTemplate.Parse(text, fields, faults) ?? throw new InvalidOperationException(string.Join("; ", faults));
    }

    [GeneratedRegex(@"-?[0-9]+(\.[0-9]+)?")]
    private static partial Regex Number();
}
