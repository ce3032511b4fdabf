using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads what seats the stock, and which way is up.</summary>
internal static class SeatingReader
{
    public static SeatedBy ReadSeatedBy(Section root)
    {
        switch (root.Text("seatedBy", required: false))
        {
            case null or "weight":
                return SeatedBy.Weight;
            case "push":
                return SeatedBy.Push;
            case var other:
                root.Faults.Add("seatedBy", $"is \"{other}\"; \"weight\" or \"push\" was expected");
                return SeatedBy.Weight;
        }
    }

    public static Vector3 ReadUp(Section root) =>
        (root.Object("up", required: false) is { } up ? OrientationReader.ReadDirection(up) : null) ?? new(0, 0, 1);
}
