using Stockseat.Service.Configuration;

namespace Stockseat.Service.Examining;

/// <summary>Who gets an answer, and what is easily overlooked there.</summary>
internal static class CallerCheck
{
    private const string About = "clients";

    private const int Shown = 10;

    public static IEnumerable<Finding> Look(Examined examined)
    {
        var clients = examined.Settings.Clients;
        yield return Finding.Good(
            About, $"{clients.Count} configured: {string.Join(", ", clients.Take(Shown).Select(c => c.Name))}{(clients.Count > Shown ? " …" : "")}");
        foreach (var advice in CallerAdvice.Of(examined.Settings))
        {
            yield return Finding.Advice(About, advice);
        }
    }
}
