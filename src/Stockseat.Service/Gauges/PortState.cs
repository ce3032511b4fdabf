namespace Stockseat.Service.Gauges;

/// <summary>The state of a reading port.</summary>
public enum PortState
{
    /// <summary>It waits for the gauge to connect.</summary>
    Listening = 1,

    /// <summary>The gauge is connected.</summary>
    Connected,

    /// <summary>The service tries to connect to the gauge, again and again.</summary>
    Connecting,
}

/// <summary>The names of the states.</summary>
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
