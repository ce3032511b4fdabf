namespace Stockseat.Service.Gauges;

/// <summary>How a reading port stands.</summary>
public enum PortState
{
    /// <summary>It waits for the gauge to connect.</summary>
    Listening = 1,

    /// <summary>The gauge is connected.</summary>
    Connected,

    /// <summary>The service calls the gauge, again and again.</summary>
    Connecting,
}

/// <summary>How they are called.</summary>
public static class PortStateNames
{
    /// <summary>Its name in status.</summary>
    public static string Name(this PortState state) => state switch
    {
        PortState.Listening => "listening",
        PortState.Connected => "connected",
        PortState.Connecting => "connecting",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "no such state"),
    };
}
