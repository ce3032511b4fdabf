using System.Globalization;

namespace Stockseat.Service.Texts;

/// <summary>Who does something and why, as a person states it.</summary>
public static class SaidText
{
    /// <summary>The most characters.</summary>
    public const int Longest = 400;

    /// <summary>The text without white space around it; null when it is empty or too long.</summary>
    public static string? Read(string text) => text.Trim() is { Length: > 0 and <= Longest } said ? said : null;

    /// <summary>What is wrong with a text that <see cref="Read"/> does not take.</summary>
    /// <param name="what">What it should say, as the beginning of a sentence.</param>
    /// <param name="text">The text.</param>
    public static string Fault(string what, string text) => string.Create(
        CultureInfo.InvariantCulture, $"{what} has {text.Trim().Length} characters; 1 to {Longest} were expected");
}
