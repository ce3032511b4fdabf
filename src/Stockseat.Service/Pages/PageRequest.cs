using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Asking;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Pages;

/// <summary>A request for a page, from a client that may open pages.</summary>
/// <param name="context">The request as it came.</param>
/// <param name="visit">Whose connection it came on.</param>
/// <param name="path">The parts of its path after the page's name.</param>
/// <param name="frames">What all pages have.</param>
/// <param name="tokens">Makes the tokens of forms.</param>
public sealed class PageRequest(HttpContext context, Visit visit, IReadOnlyList<string> path, PageFrames frames, FormTokens tokens)
{
    /// <summary>Who calls.</summary>
    public Client Client => visit.Client;

    /// <summary>The same as entries record it.</summary>
    public Caller Caller => visit.Caller;

    /// <summary>The parts of the path after the page's name: "pinbed-1" of /hold/pinbed-1.</summary>
    public IReadOnlyList<string> Path => path;

    /// <summary>The path as it came.</summary>
    public string Whole => context.Request.Path.Value ?? "/";

    /// <summary>Ends when the caller has gone.</summary>
    public CancellationToken Gone => context.RequestAborted;

    /// <summary>A value of the query; null: none, or more than one.</summary>
    public string? Query(string name) => context.Request.Query[name] is { Count: 1 } values ? values[0] : null;

    /// <summary>What is around a page.</summary>
    public PageFrame Frame(string title, string? script = null) => frames.Make(title, Client, script);

    /// <summary>The browser loads the page again after so many seconds.</summary>
    public void LoadAgainAfter(int seconds) =>
        context.Response.Headers["Refresh"] = seconds.ToString(System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A form of this page that was not sent yet.</summary>
    public PageForm NewForm() => new(Whole, tokens.Make(Client.Name, Whole), new Dictionary<string, string>(), []);

    /// <summary>A form with what was typed, after something was wrong with it.</summary>
    /// <param name="sent">What was sent.</param>
    /// <param name="faults">What was wrong.</param>
    /// <param name="keep">
    /// Whether it keeps its id: when it is not known whether it was done, sending it again must not do it twice. What was refused gets a new one.
    /// </param>
    public PageForm Again(SentForm sent, IReadOnlyList<string> faults, bool keep) =>
        new(Whole, tokens.Make(Client.Name, Whole, keep ? sent.Request : null), sent.Fields, faults);
}
