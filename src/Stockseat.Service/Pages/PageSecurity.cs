using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Pages;

/// <summary>What holds for every page: what a browser may do with it, and which requests of a browser are answered. Pure.</summary>
public static class PageSecurity
{
    /// <summary>
    /// What a browser is told with every reply: nothing inline runs, nothing comes from elsewhere, no other page frames it, nothing is kept. Forms are sent
    /// with their origin, which "no-referrer" would take away from them; so other sites, and only they, get no referrer.
    /// </summary>
    public static IReadOnlyList<(string Name, string Value)> Headers { get; } =
    [
        ("Content-Security-Policy",
            "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src 'self'; form-action 'self'; frame-ancestors 'none'; "
                + "base-uri 'none'"),
        ("X-Content-Type-Options", "nosniff"),
        ("X-Frame-Options", "DENY"),
        ("Referrer-Policy", "same-origin"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
        ("Cache-Control", "no-store"),
    ];

    /// <summary>Why a request is refused because another site caused it; null when it is not.</summary>
    public static Refusal? Foreign(HttpRequest request)
    {
        var site = request.Headers["Sec-Fetch-Site"].ToString();
        if (HttpMethods.IsPost(request.Method))
        {
            return site is "" or "same-origin" && IsOwn(request)
                ? null
                : new(Reason.NotPermitted, "the form was not sent from a page of this service; open the page here and send its form");
        }

        // A link elsewhere may lead here; nothing else elsewhere may ask for anything.
        var isVisit = request.Headers["Sec-Fetch-Mode"] == "navigate" && request.Headers["Sec-Fetch-Dest"] == "document";
        return site is "" or "same-origin" or "none" || isVisit
            ? null
            : new(Reason.NotPermitted, "a page of another site asked for this; open the page here yourself");
    }

    /// <summary>Whether a form says that it comes from here: by its origin or, when that is absent, by its referrer.</summary>
    private static bool IsOwn(HttpRequest request)
    {
        var own = $"{request.Scheme}://{request.Host.Value}";
        var origin = request.Headers.Origin;
        return origin.Count > 0
            ? origin.Count == 1 && string.Equals(origin[0], own, StringComparison.OrdinalIgnoreCase)
            : request.Headers.Referer is [{ } referrer] && referrer.StartsWith(own + "/", StringComparison.OrdinalIgnoreCase);
    }
}
