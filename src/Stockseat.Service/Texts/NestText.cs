using System.Globalization;

namespace Stockseat.Service.Texts;

/// <summary>A nest in text: its column and row, such as 2,1.</summary>
public static class NestText
{
    /// <summary>No layout has as many columns or rows; more digits are not read.</summary>
    private const int MostDigits = 6;

    /// <summary>Column and row; null when the text does not name a nest.</summary>
    public static int[]? Of(string text) => text.Split(',') is [var c, var r] && Whole(c) is { } column && Whole(r) is { } row ? [column, row] : null;

    /// <summary>A number of nests, columns or rows; null when the text is none.</summary>
    public static int? Whole(string text) =>
        text.Length <= MostDigits && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
