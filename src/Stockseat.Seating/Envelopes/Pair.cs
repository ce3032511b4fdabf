using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Envelopes;

/// <summary>Two parts that may meet.</summary>
/// <param name="Mine">The stock in the nest that is worked at, or a part of the gripper there.</param>
/// <param name="Theirs">The part that it may meet.</param>
/// <param name="WantedMetres">The least gap that holds, in metres.</param>
/// <param name="OwnFace">The face, when theirs is a face of the nest that is worked at: nothing may be behind it.</param>
internal readonly record struct Pair(Part Mine, Part Theirs, double WantedMetres, Locator? OwnFace = null)
{
    /// <summary>A gap that is below the wanted one by no more than this still holds: numbers of some metres lose as much by rounding.</summary>
    private const double RoundingMetres = 1e-12;

    public bool Holds(double gapMetres) => Holds(gapMetres, WantedMetres);

    /// <summary>Whether a gap is as wide as wanted, apart from rounding.</summary>
    public static bool Holds(double gapMetres, double wantedMetres) => gapMetres >= wantedMetres - RoundingMetres;

    /// <summary>The gap, in metres.</summary>
    public double Gap(in Stance stance) => Gap(stance, out _);

    /// <summary>The gap, in metres.</summary>
    /// <param name="stance">Where everything is.</param>
    /// <param name="roomMetres">By how much, at least, they may come nearer before the gap does not hold any more.</param>
    public double Gap(in Stance stance, out double roomMetres)
    {
        var (mine, theirs) = (Mine.At(stance), Theirs.At(stance));
        var gap = Distances.Gap(mine, theirs);
        roomMetres = gap - WantedMetres;
        if (OwnFace is not { } face)
        {
            return gap;
        }

        // Beside the face and below its plane the gap to the line is above 0, and it would jump once the part is behind the face: so the way to there counts
        // too.
        var behind = Distances.Behind(mine, face);
        roomMetres = Math.Min(roomMetres, Distances.ToSolid(mine, theirs, face.Normal));
        return behind > 0 ? -behind : gap;
    }

    public GapReading Read(in Stance stance) => new(Mine.Party, Theirs.Party, Mine.Jaws, Gap(stance));

    /// <summary>
    /// By how much, at most, the gap can be smaller anywhere between two diameters, in metres. Stock of the same diameter moves by the same vector in all
    /// nests.
    /// </summary>
    public double Moved(in Stance a, in Stance b) => BothStock
        ? Math.Abs(a.DiameterMetres - b.DiameterMetres)
        : Mine.Moved(a, b) + Theirs.Moved(a, b);

    /// <summary>The same per metre of diameter, at the lower end of a step.</summary>
    public double Rate(double sensitivity) => BothStock ? 1 : Mine.Rate(sensitivity) + Theirs.Rate(sensitivity);

    private bool BothStock => Mine.Motion == Motion.Stock && Theirs.Motion == Motion.Stock;
}
