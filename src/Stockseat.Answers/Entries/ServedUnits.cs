namespace Stockseat.Answers.Entries;

/// <summary>The names of served units.</summary>
public static class ServedUnits
{
    /// <summary>Its name in lines, in the configuration and in the ledger: m, mm or um.</summary>
    public static string Name(this ServedUnit unit) => unit switch
    {
        ServedUnit.Metre => "m",
        ServedUnit.Millimetre => "mm",
        ServedUnit.Micrometre => "um",
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "no such unit"),
    };

    /// <summary>The unit of a name; null when the name is unknown.</summary>
    public static ServedUnit? Find(string name) => name switch
    {
        "m" => ServedUnit.Metre,
        "mm" => ServedUnit.Millimetre,
        "um" => ServedUnit.Micrometre,
        _ => null,
    };
}
