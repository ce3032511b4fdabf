namespace Stockseat.Service.Pages;

/// <summary>A form as it is shown.</summary>
/// <param name="Action">Where it is sent.</param>
/// <param name="Token">Proves that it was made here, for this client and this page, and carries its id.</param>
/// <param name="Typed">What was typed before.</param>
/// <param name="Faults">What was wrong with that.</param>
public sealed record PageForm(string Action, string Token, IReadOnlyDictionary<string, string> Typed, IReadOnlyList<string> Faults)
{
    /// <summary>What was typed into a field before; "" when nothing was.</summary>
    public string Value(string field) => Typed.GetValueOrDefault(field, "");

    /// <summary>A field for a text.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="label">Its label.</param>
    /// <param name="hint">What to type.</param>
    /// <param name="complete">What a browser may offer, as HTML names it.</param>
    public FormField Text(string name, string label, string hint, string complete = "off") => new(name, label, hint, Value(name), complete);
}

/// <summary>A field for a text.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">Its label.</param>
/// <param name="Hint">What to type.</param>
/// <param name="Value">What is in it.</param>
/// <param name="Complete">What a browser may offer, as HTML names it.</param>
public sealed record FormField(string Name, string Label, string Hint, string Value, string Complete);

/// <summary>A form as it was sent.</summary>
/// <param name="Fields">Its fields.</param>
/// <param name="Request">Its id: "" when it carries none.</param>
public sealed record SentForm(IReadOnlyDictionary<string, string> Fields, string Request)
{
    /// <summary>A field; "" when it was not sent.</summary>
    public string this[string field] => Fields.GetValueOrDefault(field, "");
}
