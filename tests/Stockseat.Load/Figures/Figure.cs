using System.Globalization;

namespace Stockseat.Load.Figures;

/// <summary>One row: the same quantity for Stockseat and for its baseline, round by round.</summary>
/// <param name="Of">What is measured.</param>
/// <param name="Name">Which quantity.</param>
/// <param name="Unit">The unit of both.</param>
/// <param name="Against">What the baseline is.</param>
/// <param name="Goal">The goal, if there is one.</param>
internal sealed record Figure(string Of, string Name, string Unit, string Against, Goal Goal)
{
    private readonly List<(double Subject, double Baseline)> _rounds = [];

    public int Rounds => _rounds.Count;

    public double Subject => Median(_rounds.Select(r => r.Subject));

    public double Baseline => Median(_rounds.Select(r => r.Baseline));

    /// <summary>The median of the rounds' ratios: the two parts of a round ran one after the other.</summary>
    public double Ratio => Median(Ratios);

    public double LeastRatio => Ratios.Min();

    public double MostRatio => Ratios.Max();

    public string Verdict => Goal.Met(this) switch { true => $"{Goal.Text}: yes", false => $"{Goal.Text}: NO", null => Goal.Text };

    private IEnumerable<double> Ratios => _rounds.Select(r => r.Subject / r.Baseline);

    public void Add(double subject, double baseline)
    {
        _rounds.Add((subject, baseline));
        Console.Error.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"  {Name}, round {_rounds.Count}: {subject:G4} {Unit}; {Against} {baseline:G4}; ratio {subject / baseline:F3}"));
    }

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}

/// <summary>The goal of a figure.</summary>
/// <param name="Text">In words.</param>
/// <param name="Met">Whether it is met; null when there is no goal.</param>
internal sealed record Goal(string Text, Func<Figure, bool?> Met)
{
    public static Goal None { get; } = new("", _ => null);

    public static Goal AtLeast(double ratio) => new(string.Create(CultureInfo.InvariantCulture, $"ratio >= {ratio:0.0#}"), f => f.Ratio >= ratio);

    public static Goal AtMost(double ratio) => new(string.Create(CultureInfo.InvariantCulture, $"ratio <= {ratio:0.0#}"), f => f.Ratio <= ratio);

    /// <summary>What Stockseat's own value must reach, in the figure's unit.</summary>
    public static Goal From(double least, string unit) => new(string.Create(CultureInfo.InvariantCulture, $">= {least:0.#} {unit}"), f => f.Subject >= least);

    /// <summary>A limit of Stockseat's own value, in the figure's unit.</summary>
    public static Goal Within(double limit, string unit) => new(string.Create(CultureInfo.InvariantCulture, $"<= {limit:0.#} {unit}"), f => f.Subject <= limit);
}
