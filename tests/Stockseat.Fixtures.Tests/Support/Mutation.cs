namespace Stockseat.Fixtures.Tests.Support;

/// <summary>One place of a demo file written wrongly, with the place of the fault and words that the fault has to contain.</summary>
/// <param name="Demo">The demo file.</param>
/// <param name="Old">The text in the file; it appears exactly once.</param>
/// <param name="New">The text that replaces it.</param>
/// <param name="Path">The path that the fault names.</param>
/// <param name="Says">Words in the message.</param>
/// <param name="SchemaSees">Whether a JSON Schema can find it too: a schema can't compare two places, multiply by a unit or see a repeated key.</param>
public sealed record Mutation(string Demo, string Old, string New, string Path, string Says, bool SchemaSees)
{
    private const string Pins = "pinbed-1/r0003.json";
    private const string Vees = "veerack-2/r0001.json";
    private const string Rollers = "rollers-3/r0001.json";

    private const string Quaternion =
        "{ \"w\": 0.134164078649987, \"x\": -0.939148550549912, \"y\": -0.313049516849971, \"z\": 0.0447213595499958 }";

    private const string SeatAxis = "{ \"x\": -0.576, \"y\": 0.768, \"z\": 0.28 }";
    private const string SecondPin = "{ \"pin\": { \"u\": \"45 mm\", \"v\": \"0 mm\", \"diameter\": \"50 mm\" } }";

    public static Mutation[] Bad { get; } =
    [
        // Units and numbers with units.
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60\"", "nest.pins.spacing", "it has no unit; a length with its unit", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60 \"", "nest.pins.spacing", "it has no unit", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60 cm\"", "nest.pins.spacing", "its unit is not known", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60 MM\"", "nest.pins.spacing", "its unit is not known", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60 deg\"", "nest.pins.spacing", "its unit is not known", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60  mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \" 60 mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"+60 mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"-60 mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"6e1 mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60,0 mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60. mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \".06 m\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"NaN mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"٦٠ mm\"", "nest.pins.spacing", "not a plain number", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"\"", "nest.pins.spacing", "it is empty", true),
        new(
            Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"0.0600000000000000000000000000000000000000000000000000000000000000001 m\"", "nest.pins.spacing",
            "more than 60 digits", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": 60", "nest.pins.spacing", "is the number \"60\"; a length with its unit", true),
        new(Pins, "\"x\": \"412.30 mm\"", "\"x\": 0.4123", "taught.position.x", "is the number \"0.4123\"", true),
        new(Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"30\"", "gripper.clocking", "it has no unit; an angle with its unit", true),
        new(Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"30 mm\"", "gripper.clocking", "its unit is not known", true),
        new(Pins, "\"payload\": \"8 kg\"", "\"payload\": \"8 lb\"", "limits.payload", "its unit is not known; a mass with its unit", true),
        new(Pins, "\"payload\": \"8 kg\"", "\"payload\": \"-8 kg\"", "limits.payload", "not a plain number", true),
        new(Pins, "\"payload\": \"8 kg\"", "\"payload\": \"8 kg\", \"recheck\": \"-1 mm\"", "limits.recheck", "not a plain number", true),
        new(Pins, "\"robot\": \"0.05 mm\"", "\"robot\": \"-0.05 mm\"", "uncertainty.robot", "not a plain number", true),

        // Out of range.
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"0 mm\"", "nest.pins.spacing", "above 0 m to 10 m", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"0.000 mm\"", "nest.pins.spacing", "above 0 m to 10 m", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"10.001 m\"", "nest.pins.spacing", "that is 10.001 m; above 0 m to 10 m", false),
        new(Pins, "\"x\": \"412.30 mm\"", "\"x\": \"100.5 m\"", "taught.position.x", "from -100 m to 100 m", false),
        new(Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"361 deg\"", "gripper.clocking", "rad was expected", false),
        new(Pins, "\"heldAngle\": \"5 deg\"", "\"heldAngle\": \"91 deg\"", "limits.heldAngle", "rad was expected", false),
        new(Pins, "\"heldAngle\": \"5 deg\"", "\"heldAngle\": \"-5 deg\"", "limits.heldAngle", "not a plain number", true),
        new(Pins, "\"payload\": \"8 kg\"", "\"payload\": \"10001 kg\"", "limits.payload", "from 0 kg to 10000 kg", false),
        new(Pins, "\"sensitivity\": 2.0", "\"sensitivity\": -1", "limits.sensitivity", "a number from 0 to 1000000", true),
        new(Pins, "\"sensitivity\": 2.0", "\"sensitivity\": 1e999", "limits.sensitivity", "a number from 0 to 1000000", true),
        new(Pins, "\"revision\": 3", "\"revision\": 0", "revision", "a whole number from 1 to 999999", true),
        new(Pins, "\"revision\": 3", "\"revision\": 1000000", "revision", "a whole number from 1 to 999999", true),
        new(Pins, "\"revision\": 3", "\"revision\": 3.5", "revision", "a whole number", true),
        new(Pins, "\"revision\": 3", "\"revision\": \"3\"", "revision", "is the text \"3\"", true),
        new(Pins, "\"revision\": 3", "\"revision\": 99999999999999999999", "revision", "a whole number", true),
        new(Pins, "\"count\": 6", "\"count\": 0", "layout[0].count", "a whole number from 1 to 10000", true),
        new(Pins, "\"count\": 6", "\"count\": 10001", "layout[0].count", "a whole number from 1 to 10000", true),
        new(Pins, "\"pitch\": \"130 mm\"", "\"pitch\": \"0 mm\"", "layout[1].pitch", "a pitch other than 0", true),
        new(Pins, "\"pitch\": \"130 mm\"", "\"pitch\": \"-0 mm\"", "layout[1].pitch", "a pitch other than 0", true),
        new(Pins, "\"jaws\": 2", "\"jaws\": 9", "gripper.jaws", "a whole number from 1 to 8", true),
        new(Vees, "\"includedAngle\": \"90 deg\"", "\"includedAngle\": \"180 deg\"", "nest.vee.includedAngle", "rad was expected", false),
        new(Vees, "\"includedAngle\": \"90 deg\"", "\"includedAngle\": \"0 deg\"", "nest.vee.includedAngle", "rad was expected", true),

        // Words.
        new(Pins, "\"between\": \"centres\"", "\"between\": \"edges\"", "nest.pins.between", "only \"centres\"", true),
        new(Vees, "\"seatedBy\": \"push\"", "\"seatedBy\": \"clamp\"", "seatedBy", "\"weight\" or \"push\" was expected", true),

        // Keys.
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60 mm\", \"colour\": 1", "nest.pins.colour", "known are between, diameter, spacing", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"Spacing\": \"60 mm\", \"spacing\": \"60 mm\"", "nest.pins.Spacing", "not a key that belongs here", true),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"pinbed-1\", \"limit\": {}", "limit", "not a key that belongs here", true),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"pinbed-1\", \"$comment\": \"\"", "$comment", "not a key that belongs here", true),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60 mm\", \"spacing\": \"60 mm\"", "nest.pins.spacing", "appears twice", false),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"pinbed-1\", \"fixture\": \"pinbed-1\"", "fixture", "appears twice", false),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"pinbed-1\", \"$schema\": \"x\"", "$schema", "appears twice", false),
        new(Pins, "\"spacing\": \"60 mm\", ", "", "nest.pins.spacing", "is missing; a length with its unit", true),
        new(Pins, "\"revision\": 3,", "", "revision", "is missing; a whole number", true),
        new(Pins, ",\n    \"note\": \"bed moved 40 mm\"", "", "calibrated.note", "is missing; a text", true),
        new(Pins, "\"diameter\": \"80 mm\",", "", "taught.diameter", "is missing", true),
        new(Vees, "{ \"standard\": \"0.03 mm\" }", "{}", "uncertainty.frame.standard", "is missing; a standard uncertainty", true),
        new(
            Vees, "{ \"standard\": \"0.03 mm\" }", "{ \"standard\": \"0.03 mm\", \"limit\": \"0.1 mm\" }", "uncertainty.frame.limit",
            "not a key that belongs here", true),
        new(Vees, "{ \"standard\": \"0.01 deg\" }", "{ \"standard\": \"0.01 mm\" }", "uncertainty.frameAngle.standard", "its unit is not known", true),

        // Names and texts.
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"Pinbed-1\"", "fixture", "a name of a-z, 0-9 and -", true),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"-pinbed\"", "fixture", "a name of a-z, 0-9 and -", true),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"pin/bed\"", "fixture", "a name of a-z, 0-9 and -", true),
        new(Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"\"", "fixture", "has 0 characters", true),
        new(
            Pins, "\"fixture\": \"pinbed-1\"", "\"fixture\": \"a123456789b123456789c123456789d123456789e123456789f123456789g123\"", "fixture",
            "has 64 characters", true),
        new(Pins, "\"by\": \"day setter\"", "\"by\": \"\"", "calibrated.by", "has 0 characters", true),
        new(Pins, "\"taughtIn\": \"cell-1 base\"", "\"taughtIn\": 1", "taught.taughtIn", "is the number \"1\"; a text", true),
        new(Pins, "2026-11-20T09:12:00Z", "2026-11-20", "calibrated.at", "an instant such as", true),
        new(Pins, "2026-11-20T09:12:00Z", "2026-11-20T09:12:00", "calibrated.at", "an instant such as", true),
        new(Pins, "2026-11-20T09:12:00Z", "2026-11-20T09:12:00+1", "calibrated.at", "an instant such as", true),
        new(Pins, "2026-11-20T09:12:00Z", "20/11/2026 09:12", "calibrated.at", "an instant such as", true),
        new(Pins, "2026-11-20T09:12:00Z", "2026-11-31T09:12:00Z", "calibrated.at", "an instant such as", false),

        // Forms.
        new(
            Pins, "\"nest\": { \"pins\": { \"spacing\": \"60 mm\", \"diameter\": \"12 mm\", \"between\": \"centres\" } }", "\"nest\": {}", "nest",
            "has 0 of pins, vee and locators",
            true),
        new(Pins, "\"nest\": { \"pins\"", "\"nest\": { \"vee\": { \"includedAngle\": \"90 deg\" }, \"pins\"", "nest", "has 2 of pins, vee and locators", true),
        new(Pins, Quaternion, "{ \"w\": 0, \"x\": 0.99, \"y\": 0, \"z\": 0 }", "taught.orientation", "has length 0.99; a unit quaternion", false),
        new(Pins, Quaternion, "{ \"w\": 0, \"x\": 1.01, \"y\": 0, \"z\": 0 }", "taught.orientation.x", "a number from -1.001 to 1.001", true),
        new(Pins, Quaternion, "{ \"w\": 0, \"x\": 0, \"y\": 0, \"z\": 0 }", "taught.orientation", "has length 0", false),
        new(Pins, Quaternion, "{ \"w\": 0, \"x\": 1, \"y\": 0 }", "taught.orientation.z", "is missing", true),
        new(
            Pins, Quaternion, "{ \"w\": 0, \"x\": 1, \"y\": 0, \"z\": 0, \"angle\": \"0 deg\" }", "taught.orientation.angle", "not a key that belongs here",
            true),
        new(
            Rollers, "\"axis\": { \"x\": 1, \"y\": 1, \"z\": 0 }", "\"axis\": { \"x\": 0, \"y\": 0, \"z\": 0 }", "taught.orientation.axis", "has the length 0",
            false),
        new(Rollers, "\"angle\": \"180 deg\"", "\"angle\": 180", "taught.orientation.angle", "an angle with its unit", true),
        new(Vees, ", \"thenX\": \"180 deg\"", "", "taught.orientation.thenX", "is missing", true),
        new(Pins, SeatAxis, "{ \"x\": -0.576, \"y\": 0.768, \"z\": 0.281 }", "frame", "not square to each other within 0.01 deg", false),
        new(Pins, SeatAxis, "{ \"x\": 0, \"y\": 0, \"z\": 0 }", "frame.seatAxis", "has the length 0", false),
        new(Vees, "\"faceFrom\": \"0.375 in\"", "\"faceFrom\": \"2.75 in\"", "nest.vee.faceTo", "is not beyond faceFrom", false),
        new(Rollers, ",\n      " + SecondPin, "", "nest.locators", "has 1 items; an array of 2 to 2 objects", true),
        new(Rollers, SecondPin, SecondPin + ", " + SecondPin, "nest.locators", "has 3 items", true),
        new(Rollers, SecondPin, "7", "nest.locators[1]", "is the number \"7\"; an object", true),
        new(Rollers, SecondPin, "{}", "nest.locators[1]", "a pin or a face, and not both", true),
        new(
            Rollers, SecondPin, SecondPin[..^2] + ", \"face\": { \"u\": \"20 mm\", \"v\": \"0 mm\", \"normal\": \"135 deg\" } }", "nest.locators[1]",
            "a pin or a face, and not both", true),
        new(Rollers, "\"u\": \"45 mm\"", "\"u\": \"-45 mm\"", "nest.locators", "two pins in one place", false),
        new(Rollers, "\"u\": \"45 mm\"", "\"u\": \"-5 mm\"", "nest", "has pins that overlap", false),
        new(Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"11.9 mm\"", "nest", "has pins that overlap", false),
        new(Rollers, SecondPin, "{ \"face\": { \"u\": \"45 mm\", \"v\": \"0 mm\", \"normal\": \"190 deg\" } }", "nest", "overhangs the stock", false),
        new(
            Rollers, SecondPin, "{ \"face\": { \"u\": \"45 mm\", \"v\": \"0 mm\", \"normal\": \"135 deg\", \"from\": \"9 mm\", \"to\": \"9 mm\" } }",
            "nest.locators[1].face.to", "is not beyond from", false),
        new(Pins, "\"direction\": \"v\"", "\"direction\": \"u\"", "layout", "repeats along u twice", true),
        new(Pins, "\"direction\": \"v\"", "\"direction\": \"x\"", "layout[1].direction", "\"u\", \"v\" or \"w\" was expected", true),
        new(
            Rollers, "\"layout\": [ { \"direction\": \"w\", \"count\": 3, \"pitch\": \"450 mm\" } ]", "\"layout\": []", "layout",
            "has 0 items; an array of 1 to 2", true),
        new(
            Rollers, "\"layout\": [ { \"direction\": \"w\", \"count\": 3, \"pitch\": \"450 mm\" } ]", "\"layout\": {}", "layout",
            "is an object; an array of 1 to 2", true),
        new(Pins, "[ \"60 mm\", \"100 mm\" ]", "[ \"100 mm\", \"60 mm\" ]", "limits.diameter", "the smaller first", false),
        new(Pins, "[ \"60 mm\", \"100 mm\" ]", "[ \"80 mm\", \"80 mm\" ]", "limits.diameter", "the smaller first", false),
        new(Pins, "[ \"60 mm\", \"100 mm\" ]", "[ \"60 mm\" ]", "limits.diameter", "two lengths", true),
        new(Pins, "[ \"60 mm\", \"100 mm\" ]", "[ \"60 mm\", \"90 mm\", \"100 mm\" ]", "limits.diameter", "two lengths", true),
        new(Pins, "[ \"60 mm\", \"100 mm\" ]", "[ \"60 mm\", \"100\" ]", "limits.diameter[1]", "a length with its unit", true),
        new(Pins, "[ \"60 mm\", \"100 mm\" ]", "[ \"0 mm\", \"100 mm\" ]", "limits.diameter[0]", "above 0 m to 10 m", true),
        new(Pins, "[ \"35 mm\", \"116 mm\" ]", "[ 35, \"116 mm\" ]", "gripper.stroke[0]", "a length with its unit", true),
        new(Pins, "\"openBy\": \"12 mm\",", "", "gripper", "openBy or openTo, and not both", true),
        new(Pins, "\"openBy\": \"12 mm\"", "\"openBy\": \"12 mm\", \"openTo\": \"100 mm\"", "gripper", "openBy or openTo, and not both", true),
        new(Rollers, "\"returnsRawStock\": true", "\"returnsRawStock\": \"true\"", "returnsRawStock", "is the text \"true\"; true or false", true),

        // Surroundings of the stock.
        new(Pins, "\"openBy\": \"12 mm\"", "\"openBy\": \"12 mm\", \"palm\": \"0 mm\"", "gripper.palm", "above 0 m to 10 m", true),
        new(Pins, "\"openBy\": \"12 mm\"", "\"openBy\": \"12 mm\", \"jawTipHeight\": \"-1 mm\"", "gripper.jawTipHeight", "not a plain number", true),
        new(Pins, "\"gripper\": {", "\"stock\": { \"density\": \"7850\" }, \"gripper\": {", "stock.density", "it has no unit; a density with its unit", true),
        new(Pins, "\"gripper\": {", "\"stock\": { \"density\": \"7850 kg\" }, \"gripper\": {", "stock.density", "its unit is not known", true),
        new(Pins, "\"gripper\": {", "\"stock\": { \"density\": \"-1 kg/m3\" }, \"gripper\": {", "stock.density", "not a plain number", true),
        new(Pins, "\"gripper\": {", "\"stock\": { \"mass\": \"1 kg\" }, \"gripper\": {", "stock.mass", "not a key that belongs here", true),
        new(Pins, "\"gripper\": {", "\"obstacles\": [], \"gripper\": {", "obstacles", "has 0 items; an array of 1 to 200", true),
        new(Pins, "\"gripper\": {", "\"obstacles\": [ { \"name\": \"stop\", \"diameter\": \"9 mm\" } ], \"gripper\": {", "obstacles[0].at", "is missing", true),

        // The taught diameter has to be a diameter that would be served.
        new(Pins, "\"diameter\": \"80 mm\"", "\"diameter\": \"48 mm\"", "taught.diameter", "drops between the locators", false),
        new(Pins, "\"diameter\": \"80 mm\"", "\"diameter\": \"101 mm\"", "taught.diameter", "it lies outside limits.diameter", false),
        new(Pins, "\"sensitivity\": 2.0", "\"sensitivity\": 1.3", "taught.diameter", "above limits.sensitivity 1.3", false),
        new(Pins, "\"heldAngle\": \"5 deg\"", "\"heldAngle\": \"42 deg\"", "taught.diameter", "42 deg are required", false),
        new(Vees, "\"faceTo\": \"2.75 in\"", "\"faceTo\": \"1.36 in\"", "taught.diameter", "beyond the end of a face", false),
        new(Rollers, SecondPin, "{ \"pin\": { \"u\": \"-45 mm\", \"v\": \"90 mm\", \"diameter\": \"50 mm\" } }", "taught.diameter", "is not held there", false),
    ];

    /// <summary>Written in another way, and still good.</summary>
    public static (string Demo, string Old, string New)[] Good { get; } =
    [
        (Pins, "\"$schema\": \"../fixture.schema.json\",", ""),
        (Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60mm\""),
        (Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"0.06 m\""),
        (Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"60000 um\""),
        (Pins, "\"spacing\": \"60 mm\"", "\"spacing\": \"2.36220472440944881889763779527559 in\""),
        (Pins, "\"x\": \"412.30 mm\"", "\"x\": \"-0 mm\""),
        (Pins, "\"x\": \"412.30 mm\"", "\"x\": \"-99.999 m\""),
        (Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"-0.5 rad\""),
        (Pins, "\"payload\": \"8 kg\"", "\"payload\": \"8000g\""),
        (Pins, "\"pitch\": \"130 mm\"", "\"pitch\": \"-130 mm\""),
        (Pins, "\"direction\": \"v\"", "\"direction\": \"w\""),

        // Surroundings of the stock.
        (
            Pins, "\"openBy\": \"12 mm\"",
            "\"openBy\": \"12 mm\", \"turn\": \"-15 deg\", \"palm\": \"70 mm\", \"palmHeight\": \"90 mm\", \"jawTipHeight\": \"20 mm\""),
        (Pins, "\"gripper\": {", "\"stock\": { \"density\": \"7850 kg/m3\", \"length\": \"60 mm\" }, \"gripper\": {"),
        (
            Pins, "\"gripper\": {",
            "\"obstacles\": [ { \"name\": \"stop\", \"at\": { \"u\": \"-1 m\", \"v\": \"0 mm\" }, \"diameter\": \"9 mm\" } ], \"gripper\": {"),
        (Pins, "\"between\": \"centres\" } }", "\"between\": \"centres\" }, \"top\": \"30 mm\" }"),

        // At the ends of the ranges; 60 digits, with a sign and a point.
        (Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"-0.11111111111111111111111111111111111111111111111111111111111 deg\""),
        (Pins, "\"x\": \"412.30 mm\"", "\"x\": \"100 m\""),
        (Pins, "\"x\": \"412.30 mm\"", "\"x\": \"-100000 mm\""),
        (Pins, "\"jawWidth\": \"24 mm\"", "\"jawWidth\": \"10 m\""),
        (Pins, "\"jawWidth\": \"24 mm\"", "\"jawWidth\": \"0.000001 um\""),
        (Pins, "\"shift\": \"40 mm\"", "\"shift\": \"0 mm\""),
        (Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"360 deg\""),
        (Pins, "\"clocking\": \"90 deg\"", "\"clocking\": \"-360 deg\""),
        (Pins, "\"heldAngle\": \"5 deg\"", "\"heldAngle\": \"0 deg\""),
        (Pins, "\"frameAngle\": \"0.02 deg\"", "\"frameAngle\": \"90 deg\""),
        (Pins, "\"payload\": \"8 kg\"", "\"payload\": \"10000 kg\""),
        (Pins, "\"sensitivity\": 2.0", "\"sensitivity\": 1e6"),
        (Pins, "\"jaws\": 2", "\"jaws\": 8"),
        (Pins, "\"count\": 6", "\"count\": 10000"),
        (Pins, "\"revision\": 3", "\"revision\": 999999"),

        (Pins, "\"note\": \"bed moved 40 mm\"", "\"note\": \"\""),
        (Pins, "\"note\": \"bed moved 40 mm\"", "\"note\": \"Bett um 40 mm versetzt \\u00fc \\\" \\n\""),
        (Pins, "2026-11-20T09:12:00Z", "2026-11-20T09:12:00.1234567Z"),
        (Pins, "2026-11-20T09:12:00Z", "2026-11-20T09:12:00-05:30"),
        (Pins, Quaternion, "{ \"w\": 0.5, \"x\": -0.5, \"y\": 0.5, \"z\": -0.5 }"),
        (Pins, Quaternion, "{ \"w\": 0.7071, \"x\": 0.7071, \"y\": 0, \"z\": 0 }"),
        (Pins, "\"limits\": {\n    \"diameter\": [ \"60 mm\", \"100 mm\" ],", "\"limits\": {"),
        (Pins, "\"openBy\": \"12 mm\"", "\"openTo\": \"92 mm\""),
        (Pins, "\"openBy\": \"12 mm\",", "\"openBy\": \"12 mm\", // a comment\n /* and\n another */"),
        (Pins, "\"standOff\": { \"pick\": \"0.3 mm\", \"place\": \"0.5 mm\" }", "\"standOff\": {}"),
        (Pins, SeatAxis, "{ \"x\": -2.88, \"y\": 3.84, \"z\": 1.4008 }"),
        (Vees, "\"faceFrom\": \"0.375 in\", \"faceTo\": \"2.75 in\"", "\"faceTo\": \"1.375 in\""),
        (Vees, ", \"faceFrom\": \"0.375 in\", \"faceTo\": \"2.75 in\"", ""),
        (Vees, "{ \"standard\": \"0.01 deg\" }", "\"0.01 deg\""),
        (Rollers, SecondPin, "{ \"face\": { \"u\": \"45 mm\", \"v\": \"0 mm\", \"normal\": \"135 deg\", \"from\": \"-9 mm\", \"to\": \"100 mm\" } }"),
        (Rollers, "\"returnsRawStock\": true", "\"returnsRawStock\": false"),
        (Rollers, "\"layout\": [ { \"direction\": \"w\", \"count\": 3, \"pitch\": \"450 mm\" } ],", ""),
    ];

    public override string ToString() => $"{Demo}: {Old} → {New}";
}
