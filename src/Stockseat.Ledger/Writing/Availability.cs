namespace Stockseat.Ledger.Writing;

/// <summary>Whether the ledger can be written; reports each change.</summary>
/// <param name="begun">Whether it can be written from the beginning, with no first entries of a service to wait for.</param>
/// <param name="lost">Whether it is already known that it can't be written.</param>
internal sealed class Availability(bool begun, bool lost)
{
    private volatile bool _writable = begun;
    private bool _lost = lost;

    /// <summary>Called with the cause.</summary>
    public event Action<bool, Exception?>? Changed;

    public bool Writable => _writable;

    /// <summary>Whether the service's first entries are on the disk: nothing else is decided before. Only for the writer's thread.</summary>
    public bool Begun { get; private set; } = begun;

    /// <summary>The ledger can't be written; reported once, however often writing fails again.</summary>
    public void Lose(Exception cause)
    {
        _writable = false;
        if (!_lost)
        {
            _lost = true;
            Changed?.Invoke(false, cause);
        }
    }

    /// <summary>The ledger can be written.</summary>
    public void Serve()
    {
        (Begun, _writable) = (true, true);
        if (_lost)
        {
            _lost = false;
            Changed?.Invoke(true, null);
        }
    }

    /// <summary>The ledger can never be written again.</summary>
    public void End() => _writable = false;
}
