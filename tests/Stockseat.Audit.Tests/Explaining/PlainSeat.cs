namespace Stockseat.Audit.Tests.Explaining;

/// <summary>
/// A seat by plane geometry with angles, as on paper; nothing of the solver's form is used. Pins: the law of cosines in the triangle of the centres of both
/// pins and the stock. Vee: the centre is on the bisector, R / sin of half the angle from the apex. Pin and face: the angle whose cosine is q / rho.
/// Metres and degrees.
/// </summary>
internal sealed class PlainSeat
{
    private readonly List<(string Symbol, double[] Values)> _lines = [];

    public required double[] Centre { get; init; }

    public required double[][] Normals { get; init; }

    public IReadOnlyList<(string Symbol, double[] Values)> Lines => _lines;

    /// <summary>Two equal pins at +/-a: v = sqrt((R + r)^2 - a^2).</summary>
    public static PlainSeat LevelPins(double a, double r, double reach, string by)
    {
        var (rho, v) = (reach + r, Math.Sqrt(Math.Pow(reach + r, 2) - a * a));
        return new PlainSeat { Centre = [0, v], Normals = [[a / rho, v / rho], [-a / rho, v / rho]] }
            .With("a", a).With("m", 0).With("rho", rho).With("h", v).With($"C({by})", 0, v);
    }

    /// <summary>A symmetric vee of half-angle alpha with its apex at the origin: v = R / sin(alpha).</summary>
    public static PlainSeat Vee(double alpha, double reach, string by)
    {
        var v = reach / Sin(alpha);
        return new PlainSeat { Centre = [0, v], Normals = [[Cos(alpha), Sin(alpha)], [-Cos(alpha), Sin(alpha)]] }
            .With("k1", 0).With("k2", 0).With("A", 0, 0).With("alpha", alpha).With("h", v).With($"C({by})", 0, v);
    }

    /// <summary>A vee whose faces lean by left and right from v, with its apex at u, v.</summary>
    public static PlainSeat LopsidedVee(double u, double v, double left, double right, double reach, string by)
    {
        var (length, lean) = (reach / Sin((left + right) / 2), (right - left) / 2);
        double[][] n = [[Cos(left), Sin(left)], [-Cos(right), Sin(right)]];
        var centre = new[] { u + length * Sin(lean), v + length * Cos(lean) };
        return new PlainSeat { Centre = centre, Normals = n }
            .With("k1", n[0][0] * u + n[0][1] * v + reach).With("k2", n[1][0] * u + n[1][1] * v + reach).With("D12", Sin(left + right))
            .With($"C({by})", centre);
    }

    /// <summary>Two pins of any size and position.</summary>
    public static PlainSeat Pins(double u1, double v1, double r1, double u2, double v2, double r2, double reach, string by)
    {
        var (rho1, rho2) = (reach + r1, reach + r2);
        var length = Math.Sqrt((u2 - u1) * (u2 - u1) + (v2 - v1) * (v2 - v1));
        var leans = Math.Atan2(v2 - v1, u2 - u1) * 180 / Math.PI;
        var gamma = Math.Acos((length * length + rho1 * rho1 - rho2 * rho2) / (2 * length * rho1)) * 180 / Math.PI;
        var centre = new[] { u1 + rho1 * Cos(leans + gamma), v1 + rho1 * Sin(leans + gamma) };
        return new PlainSeat
        {
            Centre = centre, Normals = [[(centre[0] - u1) / rho1, (centre[1] - v1) / rho1], [(centre[0] - u2) / rho2, (centre[1] - v2) / rho2]],
        }
            .With("d", u2 - u1, v2 - v1).With("L", length).With("e", Cos(leans), Sin(leans)).With("rho1", rho1).With("rho2", rho2)
            .With("x", rho1 * Cos(gamma)).With("t", -Sin(leans), Cos(leans)).With("h", rho1 * Sin(gamma)).With($"C({by})", centre);
    }

    /// <summary>A pin on the left and a face on the right, whose normal is at phi.</summary>
    public static PlainSeat PinFace(double u1, double v1, double r, double u2, double v2, double phi, double reach, string by)
    {
        var rho = reach + r;
        var q = Cos(phi) * (u2 - u1) + Sin(phi) * (v2 - v1) + reach;
        var turn = Math.Acos(q / rho) * 180 / Math.PI;
        var centre = new[] { u1 + rho * Cos(phi - turn), v1 + rho * Sin(phi - turn) };
        return new PlainSeat { Centre = centre, Normals = [[Cos(phi - turn), Sin(phi - turn)], [Cos(phi), Sin(phi)]] }
            .With("rho", rho).With("q", q).With("t", Cos(phi - 90), Sin(phi - 90)).With("s", rho * Sin(turn)).With($"C({by})", centre);
    }

    /// <summary>What follows from the seat: a force along v in two directions by the law of sines; the rest from the bisector of both normals.</summary>
    public PlainSeat Contacts(double radius)
    {
        var (a, b) = (Normals[0], Normals[1]);
        double[] theta = [.. Normals.Select(n => Math.Acos(n[1]) * 180 / Math.PI)];
        var cos = a[0] * b[0] + a[1] * b[1];
        double[] p = [(a[0] + b[0]) / (1 + cos), (a[1] + b[1]) / (1 + cos)];
        return With("n1", a).With("n2", b)
            .With("T1", Centre[0] - radius * a[0], Centre[1] - radius * a[1]).With("T2", Centre[0] - radius * b[0], Centre[1] - radius * b[1])
            .With("det", Sin(theta[0] + theta[1])).With("load1", Sin(theta[1]) / Sin(theta[0] + theta[1]))
            .With("load2", Sin(theta[0]) / Sin(theta[0] + theta[1]))
            .With("theta1", theta[0]).With("theta2", theta[1]).With("held", theta.Min()).With("p", p).With("|p|", 1 / Cos((theta[0] + theta[1]) / 2));
    }

    public PlainSeat With(string symbol, params double[] values)
    {
        _lines.Add((symbol, values));
        return this;
    }

    public static double Sin(double degrees) => Math.Sin(degrees * Math.PI / 180);

    public static double Cos(double degrees) => Math.Cos(degrees * Math.PI / 180);
}
