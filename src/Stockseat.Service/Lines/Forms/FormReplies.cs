using System.Globalization;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Service.Lines.Forms;

/// <summary>The replies to a client in its form.</summary>
public static class FormReplies
{
    /// <summary>An answer to locate, in the unit and with the decimals that it records.</summary>
    public static LineReply Answer(Form form, string? tag, AnswerBody a)
    {
        // No fixture of a cell reaches that far, but a file of one may say so; a number that is too long for its place must not be sent.
        if ((form.Ok is not null || form.Unit != ServedUnit.Metre) && Lengths(a).Any(l => Math.Abs(l) > Form.FarthestMetres))
        {
            return Refused(form, tag, Refusal.Of(
                Reason.InternalFailure, $"answer {Whole(a.Serial)} holds a length beyond {Form.FarthestMetres} m, which the form {form.Name} has no room for"));
        }

        return form.Ok is { } ok
            ? Fill(form, ok, f => Of(a, f.Name) ?? (f.Name == "tag" ? tag : Number(form, a, f)))
            : Named(form, tag, a);
    }

    /// <summary>An ok to measured, confirm and emptied.</summary>
    public static LineReply Done(Form form, string? tag, EntryBody entry)
    {
        if (form.Done is { } done)
        {
            return Fill(form, done, f => f.Name switch
            {
                "tag" => tag,
                "serial" => Whole(entry.Serial),
                "fixture" => entry.Fixture,
                "diameter" => (entry as MeasurementBody)?.Diameter is { } d ? Padded(form, FixedPoint.Text(d, form.Decimals, (int)form.Unit)) : null,
                "confirms" => (entry as ConfirmationBody)?.Confirms is { } c ? Whole(c) : null,
                _ => throw new InvalidOperationException($"no value for {f.Name}"),
            });
        }

        var reply = LineReply.Ok(form, tag).Pair("serial", entry.Serial);
        return entry switch
        {
            ConfirmationBody c => reply.Pair("confirms", c.Confirms).End(),
            MeasurementBody m when form.Unit == ServedUnit.Metre => reply.Pair("fixture", m.Fixture!).Length("diameter", m.Diameter).End(),
            MeasurementBody m => reply.Pair("fixture", m.Fixture!).Length("diameter", m.Diameter).Pair("unit", form.Unit.Name()).End(),
            _ => reply.Pair("fixture", entry.Fixture!).End(),
        };
    }

    /// <summary>A refusal.</summary>
    public static LineReply Refused(Form form, string? tag, Refusal refusal)
    {
        var group = refusal.Info.Class.ToString().ToLowerInvariant();
        if (form.Refused is { } refused)
        {
            return Fill(form, refused, f => f.Name switch
            {
                "tag" => tag,
                "class" => group,
                "reason" => refusal.Info.Name,
                "number" => Whole((int)refusal.Reason),
                _ => throw new InvalidOperationException($"no value for {f.Name}"),
            });
        }

        var reply = new LineReply(form).Word("refused");
        if (tag is not null)
        {
            reply.Pair("tag", tag);
        }

        return reply.Pair("class", group).Pair("reason", refusal.Info.Name).Text(refusal.Text).End();
    }

    private static LineReply Named(Form form, string? tag, AnswerBody a)
    {
        var reply = LineReply.Ok(form, tag);
        foreach (var name in (ReadOnlySpan<string>)["serial", "fixture", "revision", "purpose", "nest"])
        {
            reply.Pair(name, Of(a, name)!);
        }

        reply.Length("diameter", a.Diameter);
        if (a.Measurement is not null)
        {
            reply.Pair("measurement", Of(a, "measurement")!).Pair("age", Of(a, "age")!);
        }

        reply.Pair("unit", a.ServedIn.Name()).Pair("first", Of(a, "first")!);
        foreach (var name in AnswerBody.Coordinates)
        {
            _ = a.TryNumber(name, out var value);
            reply.Number(name, value, a.Decimals, a.Exponent(name));
        }

        return reply.Word("end").End();
    }

    private static LineReply Fill(Form form, FormTemplate template, Func<FormField, string?> value)
    {
        var reply = new LineReply(form);
        foreach (var part in template.Parts)
        {
            reply.Raw(part.Field is { } field ? value(field) ?? "-" : part.Literal);
        }

        return reply.End();
    }

    /// <summary>What is no number with decimals; null when it is absent or such a number.</summary>
    private static string? Of(AnswerBody a, string name) => name switch
    {
        "serial" => Whole(a.Serial),
        "fixture" => a.Fixture,
        "revision" => Whole(a.Revision!.Value),
        "purpose" => a.Purpose,
        "nest" => $"{Whole(a.Nest[0])},{Whole(a.Nest[1])}",
        "column" => Whole(a.Nest[0]),
        "row" => Whole(a.Nest[1]),
        "measurement" => a.Measurement is { } serial ? Whole(serial) : null,
        "age" => a.Age is { } age ? Whole((long)age) : null,
        "unit" => a.ServedIn.Name(),
        "first" => a.First ? "yes" : "no",
        _ => null,
    };

    private static string? Number(Form form, AnswerBody a, FormField field) => a.TryNumber(field.Name, out var value)
        ? Padded(form, FixedPoint.Text(value, a.Decimals, a.Exponent(field.Name)))
        : null;

    private static string Padded(Form form, string number) => number.PadLeft(form.Width);

    private static IEnumerable<double> Lengths(AnswerBody a) => [a.Diameter, .. a.Position, .. a.ShiftBase, .. a.ShiftOrigin];

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
