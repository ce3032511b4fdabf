using System.Globalization;

namespace Stockseat.Sheets.Timelines;

/// <summary>Where instants are along a timeline. Each part has its own stretch of the paper, since an instant may occur again after a break.</summary>
internal sealed class TimeScale
{
    /// <summary>The width of a break, in millimetres.</summary>
    public const double BreakWidth = 5;

    /// <summary>The least width of a part: a time of day fits.</summary>
    private const double LeastWidth = 14;

    /// <summary>Kept free at both ends of a part: a mark there does not touch the break.</summary>
    private const double Inset = 2.5;

    private static readonly double[] Steps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400];

    private readonly IReadOnlyList<TimelinePart> _parts;
    private readonly (double Left, double Width)[] _stretches;
    private readonly DateTimeOffset _instant;

    public TimeScale(Timeline timeline, double left, double right)
    {
        (_parts, _instant) = (timeline.Parts, timeline.Instant);
        _stretches = new (double, double)[_parts.Count];
        var room = Math.Max(0, right - left - (BreakWidth * (_parts.Count - 1)));
        var least = Math.Min(LeastWidth, room / _parts.Count);
        var seconds = _parts.Sum(p => (p.To - p.From).TotalSeconds);
        var spread = room - (least * _parts.Count);
        foreach (var (part, i) in _parts.Select((p, i) => (p, i)))
        {
            var width = least + (spread * (seconds > 0 ? (part.To - part.From).TotalSeconds / seconds : 1.0 / _parts.Count));
            _stretches[i] = (left, width);
            left += width + BreakWidth;
        }
    }

    /// <summary>Where a part lies.</summary>
    public (double Left, double Right) Of(int part) => (_stretches[part].Left, _stretches[part].Left + _stretches[part].Width);

    public double X(int part, DateTimeOffset at)
    {
        var (p, (left, width)) = (_parts[part], _stretches[part]);
        var seconds = (p.To - p.From).TotalSeconds;
        var inset = Math.Min(Inset, width / 8);
        return left + inset + ((width - (2 * inset)) * (seconds > 0 ? Math.Clamp((at - p.From).TotalSeconds / seconds, 0, 1) : 0.5));
    }

    /// <summary>Where the instant in question is in a part; null when it is in another one.</summary>
    public double? Instant(int part) => _parts[part].HasInstant ? X(part, _instant) : null;

    /// <summary>Round times of day in a part, as many as there is room for.</summary>
    public IEnumerable<(double X, string Text)> Times(int part, double room)
    {
        var (p, width) = (_parts[part], _stretches[part].Width);
        var seconds = (p.To - p.From).TotalSeconds;
        var step = Steps.FirstOrDefault(s => s * width >= seconds * room, Steps[^1] * Math.Max(1, Math.Ceiling(seconds * room / (width * Steps[^1]))));
        var from = p.From.ToOffset(_instant.Offset);
        var first = from.Date.AddSeconds(Math.Ceiling((from.TimeOfDay.TotalSeconds - 1e-6) / step) * step);
        for (var at = new DateTimeOffset(first, _instant.Offset); at <= p.To; at = at.AddSeconds(step))
        {
            yield return (X(part, at), at.ToString(step >= 86400 ? "MM-dd" : step >= 60 ? "HH:mm" : "HH:mm:ss", CultureInfo.InvariantCulture));
        }
    }
}
