namespace Stockseat.Plant.Forwarding;

/// <summary>Takes what a log should have. It is called on the forwarder's own thread, once for each change.</summary>
public interface IForwardingNews
{
    /// <summary>The store was reached, at first or again.</summary>
    void Reached(string store);

    /// <summary>The store can't be reached; it is tried again and again.</summary>
    void Lost(string cause);

    /// <summary>Everything that was missing is stored.</summary>
    void CaughtUp(long serial);

    /// <summary>A ledger is not sent any more; an alarm.</summary>
    void Stopped(string fault);

    /// <summary>What kept a ledger from being sent is gone.</summary>
    void GoesOn();
}
