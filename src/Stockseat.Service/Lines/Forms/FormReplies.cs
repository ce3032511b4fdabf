using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Lines.Forms;

/// <summary>The replies to a client in its form.</summary>
internal static class FormReplies
{
    private static readonly (string Name, byte[] Key)[] NamedUncertainties =
        [.. FormField.Uncertainties.Select(u => (u, System.Text.Encoding.ASCII.GetBytes($" {u}=")))];

    private static readonly byte[][] NamedCoordinates = [.. AnswerBody.Coordinates.Select(c => System.Text.Encoding.ASCII.GetBytes($" {c}="))];

    /// <summary>An answer to locate, in the unit and with the decimals that it records.</summary>
    public static void Answer(ref ReplyBytes bytes, Form form, string? tag, ServedBody a)
    {
        // No fixture of a cell reaches that far, but its file may say so; a number that is too long for its place must not be sent.
        if ((form.Ok is not null || form.Unit != ServedUnit.Metre) && IsFar(a))
        {
            Refused(ref bytes, form, tag, Refusal.Of(
                Reason.InternalFailure, $"answer {a.Serial.ToString(System.Globalization.CultureInfo.InvariantCulture)} has a length beyond "
                    + $"{Form.FarthestMetres} m, which the form {form.Name} has no room for"));
            return;
        }

        if (form.Ok is null)
        {
            Named(ref bytes, tag, a);
            return;
        }

        foreach (var part in form.Ok.Parts)
        {
            if (part.Field is not { } field)
            {
                bytes.Raw(part.Literal);
            }
            else if (a.TryNumber(field.Name, out var number))
            {
                bytes.Fixed(number, a.Decimals, a.Exponent(field.Name), form.Width);
            }
            else if (Uncertainty(a, field.Name) is { } u)
            {
                bytes.Fixed(FixedPoint.Above(u, a.Decimals + a.Exponent(field.Name)), a.Decimals, a.Exponent(field.Name), form.Width);
            }
            else
            {
                Field(ref bytes, tag, a, field, form.Width);
            }
        }
    }

    /// <summary>An ok to measured, confirm, done, still and emptied.</summary>
    public static void Done(ref ReplyBytes bytes, Form form, string? tag, EntryBody entry)
    {
        var (measured, confirmed) = (entry as MeasurementBody, entry as ConfirmationBody);
        if (form.Done is not { } done)
        {
            Begun(ref bytes, "ok"u8, tag);
            if (entry is AnswerBody)
            {
                Pair(ref bytes, " still="u8, entry.Serial);
                return;
            }

            Pair(ref bytes, " serial="u8, entry.Serial);
            if (entry is DroppedBody dropped)
            {
                Pair(ref bytes, " dropped="u8, dropped.Answer);
                return;
            }

            if (entry is DoneBody carriedOut)
            {
                Pair(ref bytes, " done="u8, carriedOut.Answer);
                return;
            }

            if (confirmed is not null)
            {
                Pair(ref bytes, " confirms="u8, confirmed.Confirms);
                bytes.Raw(confirmed.Numbers == ConfirmationBody.None ? " numbers=none"u8 : default);
                return;
            }

            Pair(ref bytes, " fixture="u8, entry.Fixture!);
            if (entry is LoadedBody loaded)
            {
                Pair(ref bytes, " left="u8, loaded.Count);
                return;
            }

            if (measured is not null)
            {
                bytes.Raw(" diameter="u8);
                bytes.Fixed(measured.Diameter, form.Decimals, (int)form.Unit, 0);
                if (form.Unit != ServedUnit.Metre)
                {
                    Pair(ref bytes, " unit="u8, form.Unit.Name());
                }

                if (measured.Spread is { } spread)
                {
                    Pair(ref bytes, " readings="u8, measured.Readings.Count);
                    bytes.Raw(" spread="u8);
                    bytes.Fixed(spread, form.Decimals, (int)form.Unit, 0);
                }
            }

            return;
        }

        foreach (var part in done.Parts)
        {
            switch (part.Field?.Name)
            {
                case null: bytes.Raw(part.Literal); break;
                case "tag": bytes.Raw(tag ?? "-"); break;
                case "serial": bytes.Whole(entry.Serial); break;
                case "fixture": bytes.Raw(entry.Fixture ?? "-"); break;
                case "diameter" when measured is not null: bytes.Fixed(measured.Diameter, form.Decimals, (int)form.Unit, form.Width); break;
                case "diameter": bytes.Absent(form.Width); break;
                case "confirms" when confirmed is not null: bytes.Whole(confirmed.Confirms); break;
                case "confirms" when entry is DoneBody carriedOut: bytes.Whole(carriedOut.Answer); break;
                case "confirms" when entry is DroppedBody dropped: bytes.Whole(dropped.Answer); break;
                default: bytes.Raw("-"u8); break;
            }
        }
    }

    /// <summary>A refusal.</summary>
    public static void Refused(ref ReplyBytes bytes, Form form, string? tag, Refusal refusal)
    {
        var info = refusal.Info;
        if (form.Refused is not { } refused)
        {
            Begun(ref bytes, "refused"u8, tag);
            Pair(ref bytes, " class="u8, info.ClassName);
            Pair(ref bytes, " reason="u8, info.Name);
            bytes.Raw(" "u8);
            bytes.Text(refusal.Text);
            return;
        }

        foreach (var part in refused.Parts)
        {
            switch (part.Field?.Name)
            {
                case null: bytes.Raw(part.Literal); break;
                case "tag": bytes.Raw(tag ?? "-"); break;
                case "class": bytes.Raw(info.ClassName); break;
                case "reason": bytes.Raw(info.Name); break;
                case "number": bytes.Whole((int)refusal.Reason); break;
                default: throw new InvalidOperationException($"no value for {part.Field.Name}");
            }
        }
    }

    private static void Named(ref ReplyBytes bytes, string? tag, ServedBody a)
    {
        Begun(ref bytes, "ok"u8, tag);
        Pair(ref bytes, " serial="u8, a.Serial);
        Pair(ref bytes, " fixture="u8, a.Fixture!);
        Pair(ref bytes, " revision="u8, a.Revision!.Value);
        Pair(ref bytes, " purpose="u8, a.Purpose);
        Pair(ref bytes, " nest="u8, a.Nest[0]);
        Pair(ref bytes, ","u8, a.Nest[1]);
        var exponent = (int)a.ServedIn;
        bytes.Raw(" diameter="u8);
        bytes.Fixed(a.Diameter, a.Decimals, exponent, 0);
        if (a.Length is { } length)
        {
            bytes.Raw(" length="u8);
            bytes.Fixed(length, a.Decimals, exponent, 0);
        }

        if (a.Measurement is { } measurement)
        {
            Pair(ref bytes, " measurement="u8, measurement);
            Pair(ref bytes, " age="u8, (long)a.Age!.Value);
        }

        Pair(ref bytes, " unit="u8, a.ServedIn.Name());
        if (a.Load is { } load)
        {
            Pair(ref bytes, " load="u8, load);
            Pair(ref bytes, " left="u8, a.Left ?? 0);
        }

        bytes.Raw(a is TrialBody ? " trial=yes"u8 : default);
        bytes.Raw(a.First ? " first=yes"u8 : " first=no"u8);
        Three(ref bytes, a, a.Position, 0, exponent);
        Three(ref bytes, a, a.Orientation, 3, 0);
        Three(ref bytes, a, a.ShiftBase, 7, exponent);
        Three(ref bytes, a, a.ShiftOrigin, 10, exponent);
        foreach (var (name, key) in NamedUncertainties)
        {
            if (Uncertainty(a, name) is { } u)
            {
                bytes.Raw(key);
                bytes.Fixed(FixedPoint.Above(u, a.Decimals + exponent), a.Decimals, exponent, 0);
            }
        }

        bytes.Raw(" end"u8);
    }

    private static double? Uncertainty(ServedBody a, string name) => name switch
    {
        "ualong" => a.Uncertainty?.Along,
        "uacross" => a.Uncertainty?.Across,
        "ualongworst" => a.Uncertainty?.AlongWorst,
        "uacrossworst" => a.Uncertainty?.AcrossWorst,
        "unormal" => a.Uncertainty?.Normal,
        _ => null,
    };

    private static void Three(ref ReplyBytes bytes, ServedBody a, double[] values, int first, int exponent)
    {
        for (var i = 0; i < values.Length; i++)
        {
            bytes.Raw(NamedCoordinates[first + i]);
            bytes.Fixed(values[i], a.Decimals, exponent, 0);
        }
    }

    /// <summary>A field that is not a number with decimals.</summary>
    private static void Field(ref ReplyBytes bytes, string? tag, ServedBody a, FormField field, int width)
    {
        switch (field.Name)
        {
            case "tag": bytes.Raw(tag ?? "-"); break;
            case "serial": bytes.Whole(a.Serial); break;
            case "fixture": bytes.Raw(a.Fixture!); break;
            case "revision": bytes.Whole(a.Revision!.Value); break;
            case "purpose": bytes.Raw(a.Purpose); break;
            case "nest": bytes.Whole(a.Nest[0]); Pair(ref bytes, ","u8, a.Nest[1]); break;
            case "column": bytes.Whole(a.Nest[0]); break;
            case "row": bytes.Whole(a.Nest[1]); break;
            case "measurement" when a.Measurement is { } serial: bytes.Whole(serial); break;
            case "age" when a.Age is { } age: bytes.Whole((long)age); break;
            case "load" when a.Load is { } load: bytes.Whole(load); break;
            case "left" when a.Left is { } left: bytes.Whole(left); break;
            case "measurement" or "age" or "load" or "left": bytes.Raw("-"u8); break;
            case "length" when a.Length is { } length: bytes.Fixed(length, a.Decimals, (int)a.ServedIn, width); break;
            case "ualong" or "uacross" or "ualongworst" or "uacrossworst" or "unormal" or "length": bytes.Absent(width); break;
            case "unit": bytes.Raw(a.ServedIn.Name()); break;
            case "firstnumber": bytes.Whole(a.First ? 1 : 0); break;
            case "first": bytes.Raw(a.First ? "yes"u8 : "no"u8); break;
            default: throw new InvalidOperationException($"no value for {field.Name}");
        }
    }

    private static void Begun(ref ReplyBytes bytes, ReadOnlySpan<byte> word, string? tag)
    {
        bytes.Raw(word);
        if (tag is not null)
        {
            Pair(ref bytes, " tag="u8, tag);
        }
    }

    private static void Pair(ref ReplyBytes bytes, ReadOnlySpan<byte> key, string value)
    {
        bytes.Raw(key);
        bytes.Raw(value);
    }

    private static void Pair(ref ReplyBytes bytes, ReadOnlySpan<byte> key, long value)
    {
        bytes.Raw(key);
        bytes.Whole(value);
    }

    private static bool IsFar(ServedBody a) =>
        Beyond(a.Position) || Beyond(a.ShiftBase) || Beyond(a.ShiftOrigin)
        || a.Diameter > Form.FarthestMetres || a.Uncertainty?.Largest > Form.FarthestMetres;

    private static bool Beyond(double[] lengths)
    {
        foreach (var length in lengths)
        {
            if (Math.Abs(length) > Form.FarthestMetres)
            {
                return true;
            }
        }

        return false;
    }
}
