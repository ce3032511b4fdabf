using Stockseat.Answers.Entries;

namespace Stockseat.Service.Lines.Forms;

/// <summary>What in a form could mislead a program that reads its replies.</summary>
public static class FormCheck
{
    /// <summary>The fewest decimals of an orientation: with fewer, rounding would turn the gripper noticeably.</summary>
    private const int LeastDecimalsOfOrientation = 4;

    /// <summary>What is wrong with a form, each fault with the key at which to correct it.</summary>
    public static IEnumerable<(string Key, string Fault)> Faults(Form form)
    {
        foreach (var (key, template) in Templates(form))
        {
            foreach (var fault in TemplateCheck.Faults(template))
            {
                yield return (key, fault);
            }
        }

        foreach (var fault in (form.Ok is null ? [] : TemplateCheck.AnswerFaults(form.Ok)).Concat(OkFaults(form)))
        {
            yield return ("Ok", fault);
        }

        foreach (var fault in RefusedFaults(form).Concat(DoneFaults(form)).Concat(NumberFaults(form)).Concat(LengthFaults(form)))
        {
            yield return fault;
        }
    }

    private static IEnumerable<(string Key, FormTemplate Template)> Templates(Form form) =>
        new[] { ("Ok", form.Ok), ("Done", form.Done), ("Refused", form.Refused) }.Where(t => t.Item2 is not null).Select(t => (t.Item1, t.Item2!));

    private static IEnumerable<string> OkFaults(Form form)
    {
        if (form.Ok is not null && form.Refused is null)
        {
            yield return "is stated without Refused: the text of a named refusal has numbers, which such a parser could take for those of an answer; "
                + "state Refused too";
        }

        if (form.Answer.Fields.Any(f => f.Kind == FieldKind.Orientation) && form.Decimals < LeastDecimalsOfOrientation)
        {
            yield return $"has an orientation, {{qw}} to {{qz}}{(form.Ok is null ? " as in named" : "")}, and {form.Decimals} "
                + $"decimals{(form.Unit == ServedUnit.Micrometre ? " in um" : "")}: "
                + $"rounding that far turns the gripper; leave the orientation out, or use m or mm and at least {LeastDecimalsOfOrientation} decimals";
        }
    }

    private static IEnumerable<(string Key, string Fault)> RefusedFaults(Form form)
    {
        if (form.Refused is not { } refused)
        {
            yield break;
        }

        var (ok, no) = (form.Answer.StatusWord, refused.StatusWord);
        if (ok.Length > 0 && no.Length > 0 && (ok.StartsWith(no, StringComparison.OrdinalIgnoreCase) || no.StartsWith(ok, StringComparison.OrdinalIgnoreCase)))
        {
            yield return ("Refused", $"begins with '{no}' and Ok with '{ok}': one is the beginning of the other, so a program could take a refusal "
                + $"for an answer; use words that differ, such as refused and ok");
        }

        if (refused.MostNumbers >= form.Answer.LeastNumbers)
        {
            yield return ("Refused", $"may be read as {refused.MostNumbers} numbers and Ok as {form.Answer.LeastNumbers}: a program that looks for "
                + $"numbers only could move by a refusal; take numbers, digits or {{tag}} out of it");
        }
    }

    private static IEnumerable<(string Key, string Fault)> DoneFaults(Form form)
    {
        if (form.Done is not { } done)
        {
            yield break;
        }

        if (done.StatusWord != form.Answer.StatusWord && done.StatusWord.Length > 0)
        {
            yield return ("Done", $"begins with '{done.StatusWord}' and Ok with '{form.Answer.StatusWord}': both mean success; "
                + $"begin both with the same word");
        }

        if (done.MostNumbers >= form.Answer.LeastNumbers)
        {
            yield return ("Done", $"may be read as {done.MostNumbers} numbers and Ok as {form.Answer.LeastNumbers}: a program could take an "
                + $"acknowledgement for an answer; take fields out of it");
        }
    }

    private static IEnumerable<(string Key, string Fault)> NumberFaults(Form form)
    {
        if (form is { Unit: ServedUnit.Micrometre, Decimals: > 0 })
        {
            yield return ("Decimals", $"is {form.Decimals}; with the unit um numbers are whole, 0 was expected");
        }

        if (form is { Unit: ServedUnit.Metre, Decimals: < 4 } or { Unit: ServedUnit.Millimetre, Decimals: < 1 })
        {
            yield return ("Decimals", $"is {form.Decimals} with the unit {form.Unit.Name()}: that rounds to more than 0.1 mm, which is too coarse for a "
                + $"seat; use at least 4 with m, 1 with mm");
        }

        if (form is { Width: > 0, Ok: null })
        {
            yield return ("Width", "is stated without Ok: in replies that name their fields nothing is padded; state Ok too, or leave it out");
        }

        var needed = (form with { Width = 0 }).LongestOf(FormField.OfOk.First(f => f.Kind == FieldKind.Length));
        if (form is { Width: > 0, Ok: not null } && form.Width < needed)
        {
            yield return ("Width", $"is {form.Width}; the largest number, -{Form.FarthestMetres} m with {form.Decimals} decimals in "
                + $"{form.Unit.Name()}, has {needed} characters and would move what follows it; use at least {needed}");
        }
    }

    private static IEnumerable<(string Key, string Fault)> LengthFaults(Form form)
    {
        if (form.Longest is not { } longest)
        {
            yield break;
        }

        if (form.Ok is null || form.Refused is null)
        {
            yield return ("Longest", "is stated without Ok and Refused: the text of a named refusal has no greatest length; state both, or leave it out");
        }

        foreach (var (key, template) in Templates(form).Where(t => form.LongestOf(t.Template) > longest))
        {
            yield return ("Longest", $"is {longest}; {key} may have {form.LongestOf(template)} characters, and what does not fit would be lost; take "
                + $"fields out of {key}, lessen LongestTag, or raise Longest");
        }
    }
}
