using System.Text.Json.Nodes;
using Stockseat.Service.Configuration;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Tests.Lines.Forms;

/// <summary>Anything in a form that could mislead is a fault of the configuration, reported with its reason.</summary>
public sealed class FormFaultTests : IDisposable
{
    private const string Ok = "ok;{serial};{bx};{by};{bz};end";
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-forms-").FullName;

    /// <summary>Which entry; what is changed in a good one (key=value, or key= to leave it out); where the fault is reported, and how.</summary>
    public static TheoryData<string, string, string, string> Faulty => new()
    {
        { "f", "Ok=", "Ok", "is missing" },
        { "f", "Refused=", "Refused", "is missing" },
        { "f", "Ok=ok;{bx};{by};{bz};end", "Ok", "has no {serial}" },
        { "f", "Ok={serial};{bx};{by};{bz};end", "Ok", "begins with no status word" },
        { "f", "Ok=ok{serial};{bx};{by};{bz};end", "Ok", "begins with no status word" },
        { "f", "Ok=;ok;{serial};{bx};{by};{bz};end", "Ok", "begins with no status word" },
        { "f", "Refused={reason}", "Refused", "begins with no status word" },
        { "f", "Done={serial}", "Done", "begins with no status word" },
        { "f", "Refused=OK;{reason}", "Refused", "one is the beginning of the other" },
        { "f", "Refused=okay;{reason}", "Refused", "one is the beginning of the other" },
        { "f", "Refused=o;{reason}", "Refused", "one is the beginning of the other" },
        { "f", "Done=done;{serial}", "Done", "begin both with the same word" },
        { "f", "Done=ok;{tag};{serial};{diameter};{confirms}", "Done", "may be read as 4 numbers and Ok as 4" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz}", "Ok", "has no end mark" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz} ", "Ok", "has no end mark" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz};", "Ok", "is also elsewhere in it" },
        { "f", "Ok=ok; end {serial};{bx};{by};{bz} end", "Ok", "is also elsewhere in it" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz};0", "Ok", "a field's value may also have" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz};ye", "Ok", "a field's value may also have" },
        { "f", "Ok=ok {nest} {serial} {bx} {by} {bz},", "Ok", "a field's value may also have" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz}end", "Ok", "has 'e' right after {bz}" },
        { "f", "Refused=refused;1;2;3;{number}", "Refused", "may be read as 4 numbers and Ok as 4" },
        { "f", "Refused=refused;12;3;{tag};{number}", "Refused", "may be read as 4 numbers and Ok as 4" },
        { "f", "Ok=ok;{serial}{bx};{by};{bz};end", "Ok", "has nothing between {serial} and {bx}" },
        { "f", "Ok=ok;{serial}_{bx};{by};{bz};end", "Ok", "has '_' right after {serial}" },
        { "f", "Ok=ok;{serial}Y{bx};{by};{bz};end", "Ok", "has 'Y' right after {serial}" },
        { "f", "Ok=ok;{serial};-{bx};{by};{bz};end", "Ok", "has '-' right before {bx}" },
        { "f", "Ok=ok;{serial};{bx};{by};1{bz};end", "Ok", "has '1' right before {bz}" },
        { "f", "Ok=ok;t{tag};{serial};{bx};{by};{bz};end", "Ok", "has 't' right before {tag}" },
        { "f", "Ok=ok;{serial};{nest},{bx};{by};{bz};end", "Ok", "has ',' right after {nest}" },
        { "f", "Ok=ok;{serial};{bx};{by};end", "Ok", "has {bx} {by} without {bz}" },
        { "f", "Ok=ok;{serial};{x};end", "Ok", "has {x} without {y} {z}" },
        { "f", "Ok=ok;{serial};{oy};{oz};end", "Ok", "has {oy} {oz} without {ox}" },
        { "f", "Ok=ok;{serial};{qx};{qy};{qz};end", "Ok", "without {qw}" },
        { "f", "Unit=um|Decimals=3", "Decimals", "with the unit um numbers are whole" },
        { "f", "Decimals=3", "Decimals", "rounds to more than 0.1 mm" },
        { "f", "Unit=mm|Decimals=0", "Decimals", "rounds to more than 0.1 mm" },
        { "f", "Ok=ok;{serial};{qw};{qx};{qy};{qz};end|Unit=mm|Decimals=3", "Ok", "rounding that far turns the gripper" },
        { "f", "Ok=ok;{serial};{qw};{qx};{qy};{qz};end|Unit=um|Decimals=0", "Ok", "rounding that far turns the gripper" },
        { "named", "Unit=um", "Ok", "rounding that far turns the gripper" },
        { "named", "Unit=mm|Decimals=3", "Ok", "rounding that far turns the gripper" },
        { "f", "Width=10", "Width", "has 11 characters" },
        { "f", "Unit=um|Width=9", "Width", "has 10 characters" },
        { "named", "Width=20", "Width", "is stated without Ok" },
        { "f", "Ok=ok;{serial};{colour};end", "Ok", "has a field {colour}, which is not known" },
        { "f", "Refused=refused;{fixture}", "Refused", "has a field {fixture}" },
        { "f", "Done=ok;{bx}", "Done", "has a field {bx}" },
        { "f", "Ok=ok;{serial};{serial};{bx};{by};{bz};end", "Ok", "has {serial} twice" },
        { "f", "Ok=ok;{serial;end", "Ok", "has a '{' at character 4" },
        { "f", "Ok=ok;}{serial};end", "Ok", "has a '}' at character 4" },
        { "f", "Ok=ok;{serial};{bx};{by};{bz};énd", "Ok", "printable ASCII" },
        { "f", "Ok=ok;\t{serial};{bx};{by};{bz};end", "Ok", "printable ASCII" },
        { "f", "Longest=61", "Longest", "Ok may have 62 characters" },
        { "short", "Longest=79", "Longest", "Ok may have 80 characters" },
        { "short", "LongestTag=17", "Longest", "Ok may have 81 characters" },
        { "named", "Longest=400", "Longest", "the text of a named refusal has no greatest length" },
        { "named", $"Ok={Ok}", "Ok", "is stated without Refused" },
        { "f", "Ok=ok;{bx};{by};{bz};{serial};end", "Done", "can't be made from Ok" },
        { "f", "Unit=in", "Unit", "m, mm or um was expected" },
        { "f", "BareUnit=yd", "BareUnit", "mm, m, um or in was expected" },
        { "f", "LineEnd=lfcr", "LineEnd", "lf, crlf or cr was expected" },
        { "f", "Decimals=13", "Decimals", "a whole number from 0 to 12" },
        { "f", "LongestTag=41", "LongestTag", "a whole number from 1 to 40" },
        { "f", "Colour=red", "Colour", "is not a key" },
    };

    [Theory]
    [MemberData(nameof(Faulty))]
    public void A_form_that_could_mislead_is_a_fault(string name, string change, string key, string said)
    {
        var reading = Read(name, Entry(name, change));

        Assert.Null(reading.Settings);
        Assert.Contains(reading.Faults, f => f.Contains(said, StringComparison.Ordinal));
        Assert.All(reading.Faults, f => Assert.Contains($": Forms.{name}.{key}: ", f, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("f", "")]
    [InlineData("f", "Decimals=9|Width=14|LineEnd=crlf|BareUnit=in|LongestTag=1|Longest=71")]
    [InlineData("f", "Unit=mm|Decimals=1")]
    [InlineData("f", "Unit=um|Width=10")]
    [InlineData("f", "Ok=1;{serial};X{bx};Y{by};Z{bz}#|Refused=0;{number}")]
    [InlineData("f", "Longest=62")]
    [InlineData("named", "Decimals=9")]
    [InlineData("named", "Unit=mm|Decimals=4")]
    [InlineData("named", "Refused=refused {reason}")]
    [InlineData("short", "BareUnit=um|LineEnd=cr")]
    public void A_sound_form_is_accepted(string name, string change)
    {
        var reading = Read(name, Entry(name, change));

        Assert.Empty(reading.Faults);
        Assert.Contains(reading.Settings!.Sources, s => s.Key == $"Forms:{name}" && s.Source == "file");
    }

    [Fact]
    public void A_template_of_more_than_400_characters_is_a_fault()
    {
        var entry = Entry("f", "");
        entry["Ok"] = $"ok;{new string(' ', 400)}{Ok[3..]}";

        Assert.Contains("1 to 400 were expected", Assert.Single(Read("f", entry).Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void The_built_in_forms_have_no_fault_of_the_kinds_refused_in_others() =>
        Assert.Empty(new[] { Form.Named, Form.Short }.SelectMany(FormCheck.Faults));

    [Fact]
    public void An_entry_of_a_built_in_name_changes_only_what_it_states()
    {
        var forms = Read("short", Entry("short", "LineEnd=crlf")).Settings!.Forms;

        Assert.Equal(Form.Short with { LineEnd = "\r\n" }, forms["short"]);
        Assert.Equal(Form.Named, forms["named"]);
    }

    [Fact]
    public void Without_an_entry_both_built_in_forms_exist_and_are_shown()
    {
        var settings = SettingsReader.Read(new(null), new Dictionary<string, string>()).Settings!;

        Assert.Equal([Form.Named, Form.Short], settings.Forms.Values);
        Assert.Contains(settings.Sources, s => s is { Key: "Forms:short", Source: "default" }
            && s.Value.Contains("unit um, decimals 0", StringComparison.Ordinal));
    }

    [Fact]
    public void Done_is_made_from_the_beginning_and_end_of_Ok()
    {
        var form = Read("f", Entry("f", "Ok=ok {tag} {serial} {bx} {by} {bz} end")).Settings!.Forms["f"];

        Assert.Equal("ok {tag} {serial} end", form.Done!.Text);
    }

    [Fact]
    public void A_name_that_no_client_could_write_is_a_fault() =>
        Assert.Contains("is not a form's name", Assert.Single(Read("a b", Entry("f", "")).Faults), StringComparison.Ordinal);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static JsonObject Entry(string name, string change)
    {
        var entry = name is "named" or "short" ? [] : new JsonObject { ["Ok"] = Ok, ["Refused"] = "refused;{reason}" };
        foreach (var part in change.Split('|', StringSplitOptions.RemoveEmptyEntries))
        {
            var (key, value) = (part[..part.IndexOf('=')], part[(part.IndexOf('=') + 1)..]);
            entry.Remove(key);
            if (value.Length > 0)
            {
                entry[key] = int.TryParse(value, out var number) ? number : value;
            }
        }

        return entry;
    }

    private SettingsReading Read(string name, JsonObject entry)
    {
        var file = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(file, new JsonObject { ["Forms"] = new JsonObject { [name] = entry } }.ToJsonString());
        return SettingsReader.Read(new(file), new Dictionary<string, string>());
    }
}
