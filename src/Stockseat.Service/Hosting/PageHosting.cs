using System.Net.Security;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Stockseat.Service.Clients;
using Stockseat.Service.Handshakes;
using Stockseat.Service.Pages;
using Stockseat.Service.Pages.Board;
using Stockseat.Service.Pages.Entries;
using Stockseat.Service.Pages.Fixtures;
using Stockseat.Service.Pages.Handover;
using Stockseat.Service.Pages.Holds;
using Stockseat.Service.Pages.Loads;
using Stockseat.Service.Pages.Lots;
using Stockseat.Service.Pages.Measure;
using Stockseat.Service.Pages.Reviews;
using Stockseat.Service.Pages.Scrape;

namespace Stockseat.Service.Hosting;

/// <summary>The pages: which there are, and the listener that shows them and nothing else.</summary>
internal static class PageHosting
{
    /// <summary>Adds the pages, in the order of the menu.</summary>
    public static void AddPages(this IServiceCollection services) => services
        .AddSingleton<IPage, BoardPage>()
        .AddSingleton<IPage, MeasurePage>()
        .AddSingleton<IPage, EmptiedPage>()
        .AddSingleton<IPage, LotsPage>()
        .AddSingleton<IPage, HandoverPage>()
        .AddSingleton<IPage, HoldPage>()
        .AddSingleton<IPage, ReleasePage>()
        .AddSingleton<IPage, LedgerPage>()
        .AddSingleton<IPage, EntryPage>()
        .AddSingleton<IPage, ReviewPage>()
        .AddSingleton<IPage, NotePage>()
        .AddSingleton<IPage, FixturePage>()
        .AddSingleton<IPage, AdoptPage>()
        .AddSingleton<IPage, DonePage>()
        .AddSingleton<IPage, LoadPage>()
        .AddSingleton<IPage, DroppedPage>()
        .AddSingleton<IPage, ScrapePage>()
        .AddSingleton<PageLedger>()
        .AddSingleton<HoldsForm>()
        .AddSingleton<EntryLook>()
        .AddSingleton<FormTokens>()
        .AddSingleton<PageFrames>()
        .AddSingleton<PageServer>();

    /// <summary>Shows pages at a listener; with a certificate only over TLS.</summary>
    public static void UsePages(this ListenOptions listener, IServiceProvider services, TimeProvider time)
    {
        var secured = services.GetService<TlsDoor>();
        listener.Protocols = secured is null ? HttpProtocols.Http1 : HttpProtocols.Http1AndHttp2; // Browsers speak HTTP/2 over TLS only.
        secured?.Guard(listener, [SslApplicationProtocol.Http2, SslApplicationProtocol.Http11], plain: null, PageFarewell.Refuse);
        listener.Use(next => connection =>
        {
            connection.Features.Set(OfPages.Mark);
            return next(connection);
        });
        listener.UseDoor(
            services.GetRequiredService<Door>(), time, PageFarewell.Refuse, (visit, proof, address) => PageAccess.Refused(visit.Client, proof, address));
    }

    /// <summary>Answers requests that came in at the listener of the pages; all others go on.</summary>
    public static void UsePages(this IApplicationBuilder app)
    {
        var server = app.ApplicationServices.GetRequiredService<PageServer>();
        app.Use(next => context => context.Features.Get<OfPages>() is null ? next(context) : server.Serve(context));
    }

    /// <summary>Marks the connections of that listener.</summary>
    private sealed class OfPages
    {
        public static readonly OfPages Mark = new();
    }
}
