using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Commands;

/// <summary>Options that several commands have.</summary>
internal static class Common
{
    /// <summary>No length of a cell is longer: numbers of any size have to end somewhere.</summary>
    private const double LongestMetres = 1000;

    public static Option<string> Server() => new("--server")
    {
        HelpName = "URL",
        Description = "the service to talk to",
        DefaultValueFactory = _ => "http://127.0.0.1:28610",
    };

    public static Option<bool> Json() => new("--json") { Description = "for machines: one JSON object a line" };

    public static Option<string?> Tag() => new("--tag") { HelpName = "T", Description = "echoed, and kept in the ledger" };

    public static Option<string?> Data(string what) => new("--data") { HelpName = "DIR", Description = what };

    /// <summary>A length with its unit, read to metres; wrong usage when it is none.</summary>
    public static double Length(ArgumentResult result) => Length(result, result.Tokens[^1].Value);

    /// <summary>The same for a part of what was typed.</summary>
    public static double Length(ArgumentResult result, string text)
    {
        var fault = Quantity.TryParseLength(text, allowSign: false, out var metres);
        if (fault != QuantityFault.None || metres is <= 0 or > LongestMetres)
        {
            result.AddError($"'{text}' is no length above 0 with its unit, for example 92.40mm ({Said(fault, metres)}); units are mm, m, um and in");
        }

        return metres;
    }

    /// <summary>A whole number from 1; wrong usage when it is none.</summary>
    public static long Whole(ArgumentResult result, string what, long most)
    {
        var text = result.Tokens[^1].Value;
        if (!long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number < 1 || number > most)
        {
            result.AddError($"'{text}' is no {what}; a whole number from 1 to {most} was expected");
        }

        return number;
    }

    public static Option<int[]> Nest() =>
        new("--nest") { Description = "column,row; 0,0, the grid origin, unless stated", HelpName = "C,R", CustomParser = ParseNest };

    private static int[] ParseNest(ArgumentResult result)
    {
        var parts = result.Tokens[^1].Value.Split(',');
        if (parts.Length == 2 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var column)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var row))
        {
            return [column, row];
        }

        result.AddError($"'{result.Tokens[^1].Value}' is no nest; column,row such as 2,1 was expected");
        return [0, 0];
    }

    private static string Said(QuantityFault fault, double metres) => fault switch
    {
        QuantityFault.None => metres > 0 ? "it is above 1000 m" : "it is 0",
        QuantityFault.UnitMissing => "it has no unit",
        QuantityFault.UnitUnknown => "its unit is not known",
        _ => "it is no plain number",
    };

    /// <summary>The name of a file that a command writes over: only something that is called what it writes.</summary>
    public static string WrittenOver(ArgumentResult result, string extension)
    {
        var name = result.Tokens[^1].Value;
        if (!name.EndsWith(extension, StringComparison.OrdinalIgnoreCase))
        {
            result.AddError(
                $"'{name}' is not the name of an {extension} file, and this command writes over what is there; name one that ends with {extension}");
        }

        return name;
    }
}
