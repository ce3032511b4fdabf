using System.Globalization;

namespace Stockseat.Service.Pages;

/// <summary>How long ago something was, as people say it.</summary>
public static class AgeText
{
    /// <summary>"40 s", "12 min", "3 h 20 min", "5 days": never more exact than is of use, and never rounded up.</summary>
    public static string Of(TimeSpan age) => age switch
    {
        { TotalSeconds: < 60 } => Whole(Math.Max(0, age.TotalSeconds), "s"),
        { TotalMinutes: < 60 } => Whole(age.TotalMinutes, "min"),
        { TotalHours: < 48 } => age.Minutes == 0 ? Whole(age.TotalHours, "h") : $"{Whole(age.TotalHours, "h")} {Whole(age.Minutes, "min")}",
        _ => Whole(age.TotalDays, "days"),
    };

    private static string Whole(double number, string unit) => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(number):0} {unit}");
}
