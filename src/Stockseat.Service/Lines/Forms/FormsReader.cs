using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Lines.Forms;

/// <summary>Reads the forms: the built-in ones, changed by entries with their names, and those that other entries add.</summary>
internal sealed class FormsReader(List<SettingSource> sources)
{
    private static readonly (string Name, string Bytes)[] LineEnds = [("lf", "\n"), ("crlf", "\r\n"), ("cr", "\r")];

    /// <summary>All forms by name.</summary>
    public Dictionary<string, Form> Read(Section? section)
    {
        var forms = new Dictionary<string, Form>(StringComparer.Ordinal) { [Form.Named.Name] = Form.Named, [Form.Short.Name] = Form.Short };
        var stated = section?.Keys.ToList() ?? [];
        foreach (var form in forms.Values.Where(f => !stated.Contains(f.Name)))
        {
            sources.Add(new($"Forms:{form.Name}", Said(form), "default"));
        }

        foreach (var name in stated)
        {
            if (!NameText.IsName(name))
            {
                section!.Faults.Add(section.At(name), $"is not a form's name; {NameText.Expected} was expected");
            }

            if (section!.Object(name) is { } entry)
            {
                forms[name] = ReadOne(entry, name, forms.GetValueOrDefault(name));
                sources.Add(new($"Forms:{name}", Said(forms[name]), "file"));
            }
        }

        return forms;
    }

    private static Form ReadOne(Section section, string name, Form? builtIn)
    {
        var before = section.Faults.Count;
        var basis = builtIn ?? new Form { Name = name };
        var ok = Template(section, "Ok", FormField.OfOk, required: builtIn is null) ?? basis.Ok;
        var refused = Template(section, "Refused", FormField.OfRefused, required: builtIn is null) ?? basis.Refused;
        var done = Template(section, "Done", FormField.OfDone, required: false) ?? basis.Done;
        var unit = Choice(section, "Unit", ["m", "mm", "um"]) is { } u ? ServedUnits.Find(u)!.Value : basis.Unit;
        var usual = unit == ServedUnit.Micrometre ? 0 : unit == basis.Unit ? basis.Decimals : FixedPoint.UsualDecimals;
        var end = Choice(section, "LineEnd", [.. LineEnds.Select(e => e.Name)]);
        var form = basis with
        {
            Ok = ok,
            Refused = refused,
            Done = done ?? ok?.UpToSerial(FormField.OfDone),
            Unit = unit,
            Decimals = section.Whole("Decimals", 0, 12, required: false) ?? usual,
            Width = section.Whole("Width", 1, 40, required: false) ?? basis.Width,
            LineEnd = end is null ? basis.LineEnd : Array.Find(LineEnds, e => e.Name == end).Bytes,
            BareUnit = Choice(section, "BareUnit", UnitText.All) ?? basis.BareUnit,
            Longest = section.Whole("Longest", 1, 1000, required: false) ?? basis.Longest,
            LongestTag = section.Whole("LongestTag", 1, NameText.Longest, required: false) ?? basis.LongestTag,
        };
        section.Finish();
        if (section.Faults.Count == before)
        {
            Judge(section, form);
        }

        return form;
    }

    /// <summary>Checks only a form that could be read, and not a Done that was made from a faulty Ok, since its faults would be reported twice.</summary>
    private static void Judge(Section section, Form form)
    {
        var faults = FormCheck.Faults(form).ToList();
        var okFaulty = faults.Any(f => f.Key == "Ok");
        foreach (var (key, fault) in faults.Where(f => f.Key != "Done" || !okFaulty || section.Has("Done")))
        {
            section.Faults.Add(section.At(key), fault);
        }

        if (form is { Ok: not null, Done: null } && !okFaulty)
        {
            section.Faults.Add(section.At("Done"),
                "is missing and can't be made from Ok, which has fields before {serial} that other replies do not have; state Done");
        }
    }

    private static FormTemplate? Template(Section section, string key, IReadOnlyList<FormField> fields, bool required)
    {
        if (section.Text(key, required) is not { } text)
        {
            return null;
        }

        var faults = new List<string>();
        var template = FormTemplate.Parse(text, fields, faults);
        faults.ForEach(f => section.Faults.Add(section.At(key), f));
        return template;
    }

    private static string? Choice(Section section, string key, string[] choices)
    {
        var text = section.Text(key, required: false, longest: 40);
        if (text is null || choices.Contains(text))
        {
            return text;
        }

        section.Faults.Add(section.At(key), $"is \"{text}\"; {string.Join(", ", choices[..^1])} or {choices[^1]} was expected");
        return null;
    }

    private static string Said(Form form) => string.Create(
        CultureInfo.InvariantCulture,
        $"ok {Quoted(form.Ok)}, done {Quoted(form.Done)}, refused {Quoted(form.Refused)}, unit {form.Unit.Name()}, decimals {form.Decimals}, "
        + $"width {(form.Width == 0 ? "not padded" : form.Width)}, line end {Array.Find(LineEnds, e => e.Bytes == form.LineEnd).Name}, "
        + $"bare unit {form.BareUnit ?? "none"}, longest {form.Longest?.ToString(CultureInfo.InvariantCulture) ?? "not limited"}, longest tag "
        + $"{form.LongestTag}");

    private static string Quoted(FormTemplate? template) => template is null ? "by names" : $"\"{template.Text}\"";
}
