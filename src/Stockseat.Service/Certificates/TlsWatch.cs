using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Stockseat.Service.Health;

namespace Stockseat.Service.Certificates;

/// <summary>Looks at the files of the certificate while the service runs, and tells the log what it found.</summary>
internal sealed class TlsWatch(ServiceTls tls, ServiceHealth health, TimeProvider time, ILogger<TlsWatch> logger) : BackgroundService
{
    /// <summary>From one look to the next.</summary>
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan BetweenReminders = TimeSpan.FromDays(1);

    private DateTimeOffset? _reminded;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        Look();
        using var timer = new PeriodicTimer(Interval, time);
        while (await timer.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                if (tls.Look())
                {
                    Tell();
                }

                Look();
            }
            catch (Exception e)
            {
                Log.LookFailed(logger, e); // What can't be looked at stays as it is; a fault here must not end the service.
            }
        }
    }

    private void Look()
    {
        health.Certificate(tls.Fault is null && tls.Left > TimeSpan.Zero);
        Remind();
    }

    private void Tell()
    {
        if (tls.Fault is { } fault)
        {
            Log.NotUsed(logger, fault);
        }
        else
        {
            Log.Used(logger, tls.Now.Certificate.Subject, tls.Now.Pin, tls.Now.End);
        }
    }

    private void Remind()
    {
        var now = time.GetUtcNow();
        if (tls.Fault is null && tls.Advice is { } advice && !(now - _reminded < BetweenReminders))
        {
            _reminded = now;
            Log.EndsSoon(logger, advice);
        }
    }
}
