using Stockseat.Audit.Tests.Explaining;

namespace Stockseat.Audit.Tests.Published;

/// <summary>
/// Seats, one case of each pair of locators. Origin: tangency conditions solved from many starts and refined to 60 digits with mpmath; derivatives by
/// re-solving; solved a second time with SciPy in double precision. Computed, neither read nor from memory; none of this project's code was used. mm and
/// degrees, digits as they were printed.
/// </summary>
internal static class SeatExamples
{
    /// <summary>Nest, taught diameter, diameter; then u, v, du/dR, dv/dR at the diameter, and the shift from the taught diameter in u, v.</summary>
    public static TheoryData<string, string, string, double, double, double, double, double, double> Rows => new()
    {
        // S-pin_pin-equal-01
        {
            Nests.Pins(-21.653, 0, 6, 21.653, 0, 6), "45 mm", "45.327", 0, 18.78147553441954677137307, 0, 1.526158045861217440555855, 0,
            0.2504855176935110949132651
        },

        // S-pin_pin-unequal-01
        {
            Nests.Pins(-23.356, 0, 4, 7.145, 0, 12), "22 mm", "22.156", -13.10940151142585489000361, 11.06134274913990923583700, -0.2622864824104127733516934,
            1.606092919923428853788042, -0.02045834562801219632143208, 0.1257337600043350204834510
        },

        // S-pin_pin-unequal_v-01
        {
            Nests.Pins(-14.619, 3.418, 2.5, 2.812, 0.858, 5), "12.7 mm", "12.570", -6.621005191280285296347166, 7.052323051091151171629905,
            0.1599025595927944475053573, 2.065336529789843755650735, -0.01018713411510791804071889, -0.1328405995157992653780355
        },

        // S-face_face-sym-01
        { Nests.Faces(0, 0, 60, 120), "16 mm", "15.682", 0, 9.054006921431711239032471, 0, 1.154700538379251529018298, 0, -0.1835973856023009931139093 },

        // S-face_face-asym-01: the right face's normal is at 180 - 30.6673
        {
            Nests.Faces(5.120, -7.539, 13.9239, 149.3327), "22 mm", "21.797", 9.302452957238078958103790, 20.88164533173339138098908,
            0.3837640920528585546730091, 2.607757520001228736155350, -0.03895205534336514329931043, -0.2646873882801247167197680
        },

        // S-pin_face-right-01: at 180 - 31.7078
        {
            Nests.PinFace(-23.537, -0.242, 5, 5.147, -4.875, 148.2922), "63.5 mm", "63.778", -8.628612113636155123838693, 33.50023305636009280623358,
            -0.3928090271247457136042302, 1.266814477578977788302436, -0.05449462442493304821499516, 0.1762585141494746503419217
        },

        // S-pin_face-left-01: the face first
        {
            Nests.FacePin(-3.843, -3.197, 17.8521, 8.657, -0.660, 5), "19.05 mm", "18.715", 1.216118465652962970099431, 11.61888790737228303610160,
            0.5639327451902400183989910, 1.511020940191172831728653, -0.09494434703149704541336272, -0.2515882144682056402158800
        },
    };
}
