using Stockseat.Service.Forwarding;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>The plant store in replies.</summary>
internal static class PlantMessage
{
    public static PlantStore Of(PlantForwarding plant)
    {
        var (state, lag) = (plant.State, plant.Lag);
        var message = new PlantStore
        {
            Store = state.Store, Connected = state.Connected, Cause = state.Cause ?? "", Stored = state.Stored, Waiting = lag.Entries,
        };
        if (lag.Time is { } time)
        {
            message.LagSeconds = Math.Max(0, time.TotalSeconds);
        }

        message.Faults.AddRange(state.Faults);
        return message;
    }
}
