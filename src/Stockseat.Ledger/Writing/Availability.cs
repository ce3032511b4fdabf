namespace Stockseat.Ledger.Writing;

/// <summary>Whether the ledger can be written, told when that changes.</summary>
/// <param name="begun">Whether it can at first, with no first entries of a service to wait for.</param>
/// <param name="lost">Whether that it can't is known already.</param>
internal sealed class Availability(bool begun, bool lost)
{
    private volatile bool _writable = begun;
    private bool _lost = lost;

    /// <summary>Told with the cause.</summary>
    public event Action<bool, Exception?>? Changed;

    public bool Writable => _writable;

    /// <summary>Whether the service's first entries are on the disk: nothing else is decided before. For the writer's thread.</summary>
    public bool Begun { get; private set; } = begun;

    /// <summary>It can't; told once, however often it fails again.</summary>
    public void Lose(Exception cause)
    {
        _writable = false;
        if (!_lost)
        {
            _lost = true;
            Changed?.Invoke(false, cause);
        }
    }

    /// <summary>It can.</summary>
    public void Serve()
    {
        (Begun, _writable) = (true, true);
        if (_lost)
        {
            _lost = false;
            Changed?.Invoke(true, null);
        }
    }

    /// <summary>It never will again.</summary>
    public void End() => _writable = false;
}
