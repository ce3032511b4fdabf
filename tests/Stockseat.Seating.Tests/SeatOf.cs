using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests;

/// <summary>A seat that must exist.</summary>
public static class SeatOf
{
    public static Seat Stock(Nest nest, double radiusMetres)
    {
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(nest, radiusMetres, out var seat));
        return seat;
    }
}
