using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging;
using Serilog.Extensions.Logging;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Configuration;
using Stockseat.Service.Grpc;
using Stockseat.Service.Health;
using Stockseat.Service.Lines;

namespace Stockseat.Service.Hosting;

/// <summary>The generic host, built empty: no stray appsettings.json, no URL variables.</summary>
internal static class ServiceHost
{
    /// <summary>For running requests at a stop; the supervisor's own limit is longer.</summary>
    private static readonly TimeSpan StopLimit = TimeSpan.FromSeconds(6);

    /// <summary>What a connection may hold in memory each way: what it sends and does not wait for, what it is sent and does not take.</summary>
    private const int BufferedBytes = 32 * 1024;

    /// <summary>Above any message of the contract.</summary>
    private const int LargestMessage = 64 * 1024;

    public static WebApplication Build(Settings settings, LedgerWriter writer, TimeProvider time, Serilog.ILogger logger)
    {
        var builder = WebApplication.CreateEmptyBuilder(new() { ContentRootPath = AppContext.BaseDirectory });
        builder.Logging.AddProvider(new SerilogLoggerProvider(logger, dispose: false));
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.Http2.KeepAlivePingDelay = TimeSpan.FromMinutes(1);
            kestrel.Listen(settings.Grpc, listener =>
            {
                listener.Protocols = HttpProtocols.Http2;
                listener.UseDoor(kestrel.ApplicationServices.GetRequiredService<Door>());
            });
            kestrel.Listen(settings.Line, listener => listener.UseConnectionHandler<LineConnectionHandler>());
        });
        builder.Services.Configure<SocketTransportOptions>(sockets =>
        {
            sockets.MaxReadBufferSize = BufferedBytes;
            sockets.MaxWriteBufferSize = BufferedBytes;
        });
        builder.Services.Configure<HostOptions>(options => options.ShutdownTimeout = StopLimit);
        builder.Services.Configure<ConsoleLifetimeOptions>(options => options.SuppressStatusMessages = true);
        AddSupervisor(builder.Services);
        builder.Services.AddSingleton(settings).AddSingleton(writer).AddSingleton(time);
        builder.Services.AddSingleton<ClientTable>().AddSingleton<Door>().AddSingleton<LineDeadlines>().AddSingleton<IAnswerer, Answerer>().AddSingleton<ServiceHealth>();
        builder.Services.AddSingleton(services => services.GetRequiredService<ServiceHealth>().Implementation);
        builder.Services.AddRouting();
        builder.Services.AddGrpc(grpc =>
        {
            grpc.MaxReceiveMessageSize = LargestMessage;
            grpc.Interceptors.Add<FailureBoundary>();
        });
        builder.Services.AddGrpcReflection();

        var app = builder.Build();
        app.MapGrpcService<LookupGrpc>();
        app.MapGrpcService<GaugeGrpc>();
        app.MapGrpcService<FixtureGrpc>();
        app.MapGrpcService<LedgerGrpc>();
        app.MapGrpcService<global::Grpc.HealthCheck.HealthServiceImpl>();
        app.MapGrpcReflectionService();
        return app;
    }

    /// <summary>
    /// Tells a supervisor when it is ready. AddSystemd would look at the parent process, which a hardened unit may hide; the socket's name is
    /// enough to know.
    /// </summary>
    private static void AddSupervisor(IServiceCollection services)
    {
        if (OperatingSystem.IsLinux() && Environment.GetEnvironmentVariable("NOTIFY_SOCKET") is { Length: > 0 })
        {
            services.AddSingleton<ISystemdNotifier, SystemdNotifier>();
            services.AddSingleton<IHostLifetime, SystemdLifetime>();
        }

        services.AddWindowsService();
    }
}
