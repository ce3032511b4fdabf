using System.Security.Cryptography;

namespace Stockseat.Service.Certificates;

/// <summary>
/// The service's certificate as it is now. When its files change, new handshakes use the new one; a new one that can't be used changes nothing, and is told
/// until the files are good again. Connections go on with the certificate that they began with.
/// </summary>
public sealed class ServiceTls
{
    private readonly TlsSettings _settings;
    private readonly TimeProvider _time;
    private TlsFiles _files;
    private TlsFiles? _seen;
    private string? _unread;

    /// <summary>Reads the files for a start.</summary>
    /// <exception cref="InvalidDataException">They can't be used; the message says what is wrong and what to do.</exception>
    public ServiceTls(TlsSettings settings, TimeProvider time)
    {
        (_settings, _time) = (settings, time);
        _files = TlsFiles.Read(settings);
        Now = _files.Load(settings, time.GetUtcNow());
    }

    /// <summary>What new handshakes use.</summary>
    public LoadedTls Now { get; private set; }

    /// <summary>Why the files, as they are now, are not used; null when they are.</summary>
    public string? Fault { get; private set; }

    /// <summary>How long the certificate is still valid.</summary>
    public TimeSpan Left => Now.End - _time.GetUtcNow();

    /// <summary>What whoever looks after the service should do about the certificate; null: nothing.</summary>
    public string? Advice => Fault is { } fault ? $"the changed files are not used: {fault}"
        : Left <= TimeSpan.Zero ? $"the certificate {_settings.Certificate} has ended: no client trusts it any more; issue a new one"
        : Left < TimeSpan.FromDays(CertificateEnd.DaysToRenew)
            ? $"the certificate {_settings.Certificate} ends in {CertificateEnd.Days((int)Left.TotalDays)}; issue a new one"
        : null;

    /// <summary>
    /// Looks at the files. They count when two looks in a row saw the same: certificate and key can't be replaced at one instant.
    /// </summary>
    /// <returns>Whether something changed: another certificate is used, or <see cref="Fault"/> is another.</returns>
    public bool Look()
    {
        TlsFiles found;
        try
        {
            found = TlsFiles.Read(_settings);
        }
        catch (InvalidDataException e)
        {
            var again = _unread == e.Message;
            (_unread, _seen) = (e.Message, null);
            return again && Say(e.Message);
        }

        _unread = null;
        var settled = found.IsSame(_seen);
        _seen = found;
        if (found.IsSame(_files))
        {
            return Say(null);
        }

        if (!settled)
        {
            return false;
        }

        try
        {
            Now = found.Load(_settings, _time.GetUtcNow());
            (_files, Fault) = (found, null);
            return true;
        }
        catch (Exception e) when (e is InvalidDataException or CryptographicException)
        {
            return Say(e.Message);
        }
    }

    private bool Say(string? fault)
    {
        var changed = fault != Fault;
        Fault = fault;
        return changed;
    }
}
