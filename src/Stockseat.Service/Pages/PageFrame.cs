using Stockseat.Answers.Reasons;
using Stockseat.Audit.Showing;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Pages;

/// <summary>What is around every page.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Client">Whom it is shown to.</param>
/// <param name="Alarms">What everybody has to know first; none: all is well.</param>
/// <param name="Menu">The pages of the menu, with their paths.</param>
/// <param name="Paper">The paper that it is printed on.</param>
/// <param name="Script">Our script that it uses; null: none. Every page does all it can without.</param>
public sealed record PageFrame(
    string Title, string Client, IReadOnlyList<string> Alarms, IReadOnlyList<(string Path, string Words)> Menu, PaperSize Paper, string? Script);

/// <summary>Makes what is around every page.</summary>
public sealed class PageFrames(IAnswerer answerer, Display display, IEnumerable<IPage> pages, ServiceTls? tls = null)
{
    private readonly List<(string Path, string Words)> _menu = [.. pages.Where(p => p.Menu is not null).Select(p => ("/" + p.Name, p.Menu!))];

    /// <summary>What is around a page.</summary>
    public PageFrame Make(string title, Client client, string? script) => new(title, client.Name, [.. Alarms()], _menu, display.Paper, script);

    private IEnumerable<string> Alarms()
    {
        if (!answerer.Writable)
        {
            yield return $"The ledger can't be written: no fixture answers, and nothing that is sent here is recorded; "
                + $"{ReasonInfo.Of(Reason.LedgerUnavailable).Advice}.";
        }

        if (tls?.Advice is { } advice)
        {
            yield return $"About the service's certificate: {advice}.";
        }
    }
}
