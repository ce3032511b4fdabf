using System.Globalization;

namespace Stockseat.Service.Tests.Support;

/// <summary>Another culture for this thread, for everything that flows from it, and for threads that set none.</summary>
internal sealed class CultureScope : IDisposable
{
    private readonly CultureInfo _current = CultureInfo.CurrentCulture;
    private readonly CultureInfo? _usual = CultureInfo.DefaultThreadCurrentCulture;

    public CultureScope(string name) =>
        CultureInfo.CurrentCulture = CultureInfo.DefaultThreadCurrentCulture = CultureInfo.GetCultureInfo(name, predefinedOnly: true);

    public void Dispose() => (CultureInfo.CurrentCulture, CultureInfo.DefaultThreadCurrentCulture) = (_current, _usual);
}
