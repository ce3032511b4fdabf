using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>Where a nest is, as it was served: first its inputs, then its results.</summary>
public abstract record ServedBody : EntryBody, ILocateInputs
{
    /// <summary>What <see cref="Proving"/> says.</summary>
    public const string ProvingRequired = "required";

    public required string Purpose { get; init; }

    /// <summary>The nest: column, row.</summary>
    public required int[] Nest { get; init; }

    /// <summary>The diameter that was used, in metres.</summary>
    public required double Diameter { get; init; }

    double? ILocateInputs.Diameter => Diameter;

    /// <summary>The length that was used, in metres; absent where the position does not follow it.</summary>
    public double? Length { get; init; }

    /// <summary>The serial of the measurement of that diameter; absent when the client stated the diameter.</summary>
    public long? Measurement { get; init; }

    /// <summary>The age of the measurement in seconds.</summary>
    public double? Age { get; init; }

    /// <summary>How well the measured diameter is known; absent when the client stated it.</summary>
    public DiameterFrom? From { get; init; }

    public string? Lot { get; init; }

    /// <summary>What was known of the lot; absent when no lot was named.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>The nominal diameter that the diameter had to be near, in metres.</summary>
    public double? Nominal { get; init; }

    /// <summary>How near it had to be, in metres.</summary>
    public double? Within { get; init; }

    /// <summary>"required" where the configuration keeps answers first until rechecks have proven the revision; absent otherwise.</summary>
    public string? Proving { get; init; }

    /// <summary>Whether this is a first answer: to be run at reduced speed.</summary>
    public required bool First { get; init; }

    /// <summary>The stand-off that was used, in metres.</summary>
    public required double StandOff { get; init; }

    /// <summary>The corrected position in base: x, y, z.</summary>
    public required double[] Position { get; init; }

    /// <summary>The taught orientation: w, x, y, z.</summary>
    public required double[] Orientation { get; init; }

    /// <summary>The shift in base: bx, by, bz.</summary>
    public required double[] ShiftBase { get; init; }

    /// <summary>The shift in the taught origin's own axes: ox, oy, oz.</summary>
    public required double[] ShiftOrigin { get; init; }

    /// <summary>How uncertain it is; absent when that is not known.</summary>
    public AnswerUncertainty? Uncertainty { get; init; }

    /// <summary>The decimals with which its numbers were served.</summary>
    public int Decimals { get; init; } = FixedPoint.UsualDecimals;

    /// <summary>The unit in which its lengths were served, mm or um; absent when they were served in metres.</summary>
    public string? Unit { get; init; }

    /// <summary>The load whose next nest this is, by its entry; absent when a nest was asked for.</summary>
    public long? Load { get; init; }

    /// <summary>How many nests of the load are left after this one.</summary>
    public int? Left { get; init; }

    /// <summary>In a trial: the nest after which it was looked for; absent: from the first one on.</summary>
    public int[]? After { get; init; }

    /// <summary>The largest diameter that stood in another nest, in metres; absent when all of the load have one measurement.</summary>
    public double? Beside { get; init; }

    /// <summary>The unit in which its lengths were served.</summary>
    /// <exception cref="JsonException">This version does not know the unit.</exception>
    [JsonIgnore]
    public ServedUnit ServedIn => Unit is null ? ServedUnit.Metre : ServedUnits.Find(Unit)
        ?? throw new JsonException($"answer {Serial} was served in '{Unit}', which is not a known unit");

    /// <summary>The names of its coordinates, in the order of the lines.</summary>
    public static IReadOnlyList<string> Coordinates { get; } = ["x", "y", "z", "qw", "qx", "qy", "qz", "bx", "by", "bz", "ox", "oy", "oz"];

    /// <summary>The names of all its numbers.</summary>
    public static IReadOnlyList<string> Numbers { get; } = [.. Coordinates, "diameter"];

    /// <summary>The power of ten by which a number was multiplied when it was served; orientations have no unit.</summary>
    /// <param name="name">One of <see cref="Numbers"/>.</param>
    public int Exponent(string name) => name[0] == 'q' ? 0 : (int)ServedIn;

    /// <summary>A number of the answer, by its name in lines.</summary>
    public bool TryNumber(string name, out double value)
    {
        (var found, value) = name switch
        {
            "x" => (true, Position[0]),
            "y" => (true, Position[1]),
            "z" => (true, Position[2]),
            "qw" => (true, Orientation[0]),
            "qx" => (true, Orientation[1]),
            "qy" => (true, Orientation[2]),
            "qz" => (true, Orientation[3]),
            "bx" => (true, ShiftBase[0]),
            "by" => (true, ShiftBase[1]),
            "bz" => (true, ShiftBase[2]),
            "ox" => (true, ShiftOrigin[0]),
            "oy" => (true, ShiftOrigin[1]),
            "oz" => (true, ShiftOrigin[2]),
            "diameter" => (true, Diameter),
            _ => (false, 0.0),
        };
        return found;
    }
}
