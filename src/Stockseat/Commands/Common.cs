using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stockseat.Cli.Usage;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Commands;

/// <summary>Options that several commands have.</summary>
internal static class Common
{
    /// <summary>No length in a cell is greater than this; a larger number is a mistake.</summary>
    private const double LongestMetres = 1000;

    public static ServerOption Server() => new();

    public static Option<bool> Json() => new("--json") { Description = "output for programs: one JSON object per line" };

    public static Option<string?> Tag() => new("--tag") { HelpName = "T", Description = "a word of your own that is echoed and kept in the ledger" };

    public static Option<string?> Data(string what) => new("--data") { HelpName = "DIR", Description = what };

    /// <summary>A length with its unit, in metres; anything else is wrong usage.</summary>
    public static double Length(ArgumentResult result) => Length(result, result.Tokens[^1].Value);

    /// <summary>The same for a part of what was typed.</summary>
    public static double Length(ArgumentResult result, string text)
    {
        var fault = Quantity.TryParseLength(text, allowSign: false, out var metres);
        if (fault != QuantityFault.None || metres is <= 0 or > LongestMetres)
        {
            Refuse(result, NotALength(text, fault, metres));
        }

        return metres;
    }

    /// <summary>A whole number within limits; anything else is wrong usage.</summary>
    public static long Whole(ArgumentResult result, string what, long most, long least = 1)
    {
        var text = result.Tokens[^1].Value;
        if (!long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number < least || number > most)
        {
            var range = most == long.MaxValue ? $", {least} or above," : $" from {least} to {most}";
            Refuse(result, $"'{text}' is not a {what}; a whole number{range} was expected");
        }

        return number;
    }

    public static Option<string> Purpose() =>
        UsageErrors.Choice(new("--purpose") { Description = "what the position is for", DefaultValueFactory = _ => "pick" }, "pick", "place");

    /// <summary>What is wrong with a length, and what was expected.</summary>
    public static string NotALength(string text, QuantityFault fault, double metres) =>
        $"'{text}' is not a length above 0 with its unit, for example 92.40mm ({Said(text, fault, metres)}); units are mm, m, um and in";

    public static Option<int[]> Nest(string what = "the nest as column,row; 0,0, the grid origin, unless stated") =>
        new("--nest") { Description = what, HelpName = "C,R", CustomParser = ParseNest };

    private static int[] ParseNest(ArgumentResult result)
    {
        var parts = result.Tokens[^1].Value.Split(',');
        if (parts.Length == 2 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var column)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var row))
        {
            return [column, row];
        }

        Refuse(result, $"'{result.Tokens[^1].Value}' is not a nest; column,row was expected, for example 2,1");
        return [0, 0];
    }

    /// <summary>Adds a mistake, with the option that it belongs to.</summary>
    private static void Refuse(ArgumentResult result, string mistake) =>
        result.AddError(result.Parent is OptionResult option ? $"{option.Option.Name}: {mistake}" : mistake);

    private static string Said(string text, QuantityFault fault, double metres) => fault switch
    {
        QuantityFault.None => metres > 0 ? "it is above 1000 m" : "it is 0",
        QuantityFault.UnitMissing => "it has no unit",
        QuantityFault.UnitUnknown => $"'{Quantity.UnitOf(text)}' is not a unit{UnitText.Hint(Quantity.UnitOf(text))}",
        _ => "it is not a plain number",
    };

    /// <summary>The name of a file that a command overwrites: it has to end as such a file does.</summary>
    public static string Overwritten(ArgumentResult result, string extension)
    {
        var name = result.Tokens[^1].Value;
        if (!name.EndsWith(extension, StringComparison.OrdinalIgnoreCase))
        {
            Refuse(
                result, $"'{name}' is not the name of an {extension} file, and this command overwrites what is there; name a file that ends with {extension}");
        }

        return name;
    }
}
