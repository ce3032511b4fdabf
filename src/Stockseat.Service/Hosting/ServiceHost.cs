using System.Net.Security;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.EventLog;
using Microsoft.Extensions.Options;
using Serilog.Extensions.Logging;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Configuration;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Gauges;
using Stockseat.Service.Grpc;
using Stockseat.Service.Handshakes;
using Stockseat.Service.Health;
using Stockseat.Service.Lines;
using Stockseat.Service.Logging;
using Stockseat.Service.Metrics;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Hosting;

/// <summary>The generic host, built empty: no stray appsettings.json, no URL variables.</summary>
internal static class ServiceHost
{
    /// <summary>How much memory a connection may use in each direction, for what it sends and for what it does not read.</summary>
    private const int BufferedBytes = 32 * 1024;

    /// <summary>More than any message of the contract needs.</summary>
    private const int LargestMessage = 64 * 1024;

    public static WebApplication Build(
        Settings settings, LedgerWriter writer, IFolders folders, ServiceTls? tls, ConnectionBudget budget, TimeProvider time, Serilog.ILogger logger,
        LogDrops drops)
    {
        var builder = WebApplication.CreateEmptyBuilder(new() { ContentRootPath = AppContext.BaseDirectory });
        builder.Logging.AddProvider(new SerilogLoggerProvider(logger, dispose: false));
        if (OperatingSystem.IsWindows())
        {
            // A Windows service would send everything to the event log; WindowsEvents chooses what is worth an event.
            builder.Logging.AddFilter<EventLogLoggerProvider>(null, LogLevel.None);
        }

        // If this logger were enabled, the host would make an activity and a scope for each call.
        builder.Logging.AddFilter("Microsoft.AspNetCore.Hosting.Diagnostics", LogLevel.None);
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.Http2.KeepAlivePingDelay = TimeSpan.FromMinutes(1);
            var secured = kestrel.ApplicationServices.GetService<TlsDoor>();
            kestrel.Listen(settings.Grpc, listener =>
            {
                listener.Protocols = HttpProtocols.Http2;
                secured?.Guard(listener, [SslApplicationProtocol.Http2], plain: null, StrangersCall.Refuse);
                listener.UseDoor(kestrel.ApplicationServices.GetRequiredService<Door>(), time, StrangersCall.Refuse);
            });
            kestrel.Listen(settings.Line, listener => listener.UseConnectionHandler<LineConnectionHandler>());
            if (settings.LineTls is { } lines)
            {
                kestrel.Listen(lines, listener =>
                {
                    secured!.Guard(listener, protocols: null, LineConnectionHandler.WithoutTls, LineConnectionHandler.Refuse);
                    listener.UseConnectionHandler<LineConnectionHandler>();
                });
            }

            if (settings.Page is { } pages)
            {
                kestrel.Listen(pages, listener => listener.UsePages(kestrel.ApplicationServices, time));
            }

            foreach (var port in kestrel.ApplicationServices.GetRequiredService<ReadingPorts>().Listening)
            {
                kestrel.Listen(port.Port.Configured.Listen!, listener => listener.Run(port.OnConnected));
            }
        });
        builder.Services.Replace(ServiceDescriptor.Singleton<IConnectionListenerFactory>(services =>
        {
            // One connection has many calls, so their replies are collected before they are sent. The reply to a line is sent at once.
            var (calls, lines) = (Transport(services, inline: false), Transport(services, inline: true));
            // TLS costs time, so it does not run on the threads that read bytes.
            return new BoundedTransport(
                endpoint => ReferenceEquals(endpoint, settings.Grpc) || ReferenceEquals(endpoint, settings.LineTls) || ReferenceEquals(endpoint, settings.Page)
                    ? calls : lines, budget.Accepted);
        }));
        builder.Services.Configure<HostOptions>(options => options.ShutdownTimeout = StopLimits.Requests);
        builder.Services.Configure<ConsoleLifetimeOptions>(options => options.SuppressStatusMessages = true);
        AddSupervisor(builder.Services);
        AddSettings(builder.Services, settings);
        builder.Services.AddSingleton(writer).AddSingleton(time).AddSingleton(drops);
        if (tls is not null)
        {
            builder.Services.AddSingleton(tls).AddSingleton<TlsDoor>().AddHostedService<TlsWatch>();
        }

        if (settings.Plant is not null)
        {
            builder.Services.AddSingleton(settings.Plant).AddSingleton<PlantForwarding>();
            builder.Services.AddHostedService(services => services.GetRequiredService<PlantForwarding>());
        }

        builder.Services.AddSingleton(new HostNames(settings.AllowedHosts, tls)).AddSingleton<ClientTable>().AddSingleton<Door>().AddSingleton<LineDeadlines>();
        builder.Services.AddSingleton<Answerer>().AddSingleton<IAnswerer>(of => of.GetRequiredService<Answerer>());
        builder.Services.AddSingleton<LedgerWatch>().AddSingleton<ServiceHealth>().AddSingleton<ServiceMetrics>();
        builder.Services.AddSingleton<HeavyWork>().AddSingleton<HeavyCalls>();
        builder.Services.AddSingleton<ReadingPorts>().AddHostedService(services => services.GetRequiredService<ReadingPorts>());
        var intervals = new WatchIntervals();
        // What hangs is the machine, so the machine's own counter measures it.
        builder.Services.AddSingleton(new BoundedFolders(folders, intervals, TimeProvider.System)).AddSingleton(intervals).AddHostedService<FixtureWatch>();
        builder.Services.AddRouting();
        builder.Services.AddGrpc(grpc =>
        {
            grpc.MaxReceiveMessageSize = LargestMessage;
            grpc.Interceptors.Add<FailureBoundary>();
        });
        if (settings.Reflection)
        {
            builder.Services.AddGrpcReflection();
        }

        AddCalls(builder.Services);
        builder.Services.AddPages();

        var app = builder.Build();
        if (settings.Page is not null)
        {
            app.UsePages();
        }

        if (settings.Metrics.Push is not null)
        {
            _ = app.Services.GetRequiredService<ServiceMetrics>(); // Nobody else asks for what is pushed.
        }

        app.Use(next => new CallDoor(next, app.Services.GetRequiredService<Door>(), app.Services.GetRequiredService<HostNames>(), app.Services).InvokeAsync);
        app.MapGrpcService<LookupGrpc>();
        app.MapGrpcService<LoadGrpc>();
        app.MapGrpcService<GaugeGrpc>();
        app.MapGrpcService<FixtureGrpc>();
        app.MapGrpcService<LedgerGrpc>();
        app.MapGrpcService<ClientHealth>();
        if (settings.Reflection)
        {
            app.MapGrpcReflectionService();
        }

        return app;
    }

    /// <summary>Sockets with small buffers.</summary>
    /// <param name="services">Where it logs.</param>
    /// <param name="inline">Whether a connection's work runs on the threads that read its bytes: then none of it may block a thread.</param>
    private static SocketTransportFactory Transport(IServiceProvider services, bool inline) => new(
        Options.Create(new SocketTransportOptions
        {
            MaxReadBufferSize = BufferedBytes, MaxWriteBufferSize = BufferedBytes, UnsafePreferInlineScheduling = inline,
        }),
        services.GetRequiredService<ILoggerFactory>());

    /// <summary>Each feature gets only its own settings.</summary>
    private static void AddSettings(IServiceCollection services, Settings settings) => services
        .AddSingleton(settings.Fixtures)
        .AddSingleton(settings.Ledger)
        .AddSingleton(settings.Clients)
        .AddSingleton(settings.Limits)
        .AddSingleton(settings.Terms)
        .AddSingleton(settings.Display)
        .AddSingleton(settings.Metrics)
        .AddSingleton(settings.ReadingPorts);

    /// <summary>Services without state per call are made once; otherwise each call would make its own.</summary>
    private static void AddCalls(IServiceCollection services) => services
        .AddSingleton<FailureBoundary>()
        .AddSingleton<LookupGrpc>()
        .AddSingleton<GaugeGrpc>()
        .AddSingleton<FixtureGrpc>()
        .AddSingleton<LedgerGrpc>()
        .AddSingleton<ClientHealth>();

    /// <summary>
    /// Tells a supervisor when it is ready, and its watchdog that it is alive. AddSystemd would look at the parent process, which a hardened
    /// unit may hide, and pings no watchdog; what is in the environment is enough to know.
    /// </summary>
    private static void AddSupervisor(IServiceCollection services)
    {
        if (OperatingSystem.IsLinux() && Environment.GetEnvironmentVariable("NOTIFY_SOCKET") is { Length: > 0 })
        {
            services.AddSingleton<ISystemdNotifier, SystemdNotifier>();
            services.AddSingleton<IHostLifetime, SystemdLifetime>();
            if (Watchdog.Interval(Environment.GetEnvironmentVariable("WATCHDOG_USEC"), Environment.GetEnvironmentVariable("WATCHDOG_PID")) is { } interval)
            {
                services.AddHostedService(of => new Watchdog(
                    of.GetRequiredService<LedgerWriter>().NextTurn, of.GetRequiredService<ISystemdNotifier>(), interval,
                    of.GetRequiredService<TimeProvider>(), of.GetRequiredService<ILogger<Watchdog>>()));
            }
        }

        services.AddWindowsService();
    }
}
