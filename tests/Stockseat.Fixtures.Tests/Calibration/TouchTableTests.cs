using System.Text;
using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Reading;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Fixtures.Tests.Calibration;

public sealed class TouchTableTests
{
    private const string Head = "nest,diameter [mm],x [mm],y [mm],z [mm]\n";
    private const string Row = "\"2,1\",80,412.30,-205.00,118\n";

    /// <summary>Different ways to write the same row.</summary>
    public static TheoryData<string> Ways =>
    [
        Head + Row,
        Head.Replace("\n", "\r\n", StringComparison.Ordinal) + Row.Replace("\n", "\r\n", StringComparison.Ordinal),
        "\uFEFF" + Head + Row,
        "\n" + Head + "\n" + Row + ",,,,\n",
        Head + Row.TrimEnd('\n'),
        "nest;diameter [mm];x [mm];y [mm];z [mm]\n2,1;80;412.30;-205.00;118\n",
        "nest\tdiameter [mm]\tx [mm]\ty [mm]\tz [mm]\n2,1\t80\t412.30\t-205.00\t118\n",
        "column,row,diameter (mm),x(mm),y [ mm ],z [mm]\n2,1,80,412.30,-205.00,118\n",
        "z [m],y [um],x [mm],row,column,diameter [m]\n0.118,-205000,412.30,1,2,0.08\n",
        "nest, diameter [mm], x [mm], y [mm], z [mm]\n\" 2 , 1 \", 80 , 412.30 , -205.00 , 118 \n",
    ];

    [Theory]
    [MemberData(nameof(Ways))]
    public void A_row_is_read_in_every_way_it_can_be_written(string text)
    {
        var row = Assert.Single(Good(text));

        Assert.Equal(new TouchedNest(2, 1, 0.08, new Vector3(0.4123, -0.205, 0.118)), row.Nest);
    }

    [Fact]
    public void Lengths_are_kept_as_they_were_typed()
    {
        var row = Assert.Single(Good("nest,diameter [in],x [mm],y [m],z [um]\n\"0,0\",3.1500,412.300,-0.2050,118000\n"));

        Assert.Equal(("3.1500 in", "412.300 mm", "-0.2050 m", "118000 um"), (row.Diameter, row.X, row.Y, row.Z));
        Assert.Equal(0.08001, row.Nest.DiameterMetres);
    }

    [Fact]
    public void Rows_know_their_line() =>
        Assert.Equal([3, 5], Good("\n" + Head + Row + "\n" + "\"0,0\",80,1,2,3\n").Select(r => r.Line));

    [Theory]
    [InlineData("", "", "is not a table of separated values")]
    [InlineData(" \n\n", "", "is not a table of separated values")]
    [InlineData("PK\u0003\0\0", "", "is not a table of separated values")]
    [InlineData(Head, "", "no touched nest below it")]
    [InlineData("nest,diameter,x [mm],y [mm],z [mm]\n" + Row, "line 1: ", "the column diameter states no unit; write diameter [mm]")]
    [InlineData("nest,diameter [mm],x [cm],y [mm],z [mm]\n" + Row, "line 1: ", "the column x is in 'cm', which is not a known unit")]
    [InlineData("nest,diameter [mm],x [mm],x [mm],z [mm]\n" + Row, "line 1: ", "the column x appears twice")]
    [InlineData("nest [mm],diameter [mm],x [mm],y [mm],z [mm]\n" + Row, "line 1: ", "it counts nests")]
    [InlineData("nest,diameter [mm],x [mm],y [mm]\n\"2,1\",80,412.30,-205.00\n", "line 1: ", "the columns z [mm] were expected")]
    [InlineData("column,diameter [mm],x [mm],y [mm],z [mm]\n2,80,412.30,-205.00,118\n", "line 1: ", "nest, or column and row")]
    [InlineData("nest,row,diameter [mm],x [mm],y [mm],z [mm]\n\"2,1\",1,80,412.30,-205.00,118\n", "line 1: ", "nest, or column and row")]
    [InlineData("Nest,diameter [mm],x [mm],y [mm],z [mm]\n" + Row, "line 1: ", "'Nest' is not a known column")]
    [InlineData("nest,diameter [mm],x [mm],y [mm],z [mm],w [mm]\n" + Row, "line 1: ", "'w [mm]' is not a known column")]
    [InlineData("\"2,1\",80,412.30,-205.00,118\n", "line 1: ", "names no known column; a header row such as")]
    [InlineData(Head + "2,1,80,412.30,-205.00,118\n", "line 2: ", "has 6 values; 5 were expected")]
    [InlineData(Head + "\"2,1\",80,412,30,-205,00,118,00\n", "line 2: ", "A decimal comma makes two values of one")]
    [InlineData(Head + "\"2,1\",80,412.30,-205.00\n", "line 2: ", "has 4 values; 5 were expected")]
    [InlineData("nest;diameter [mm];x [mm];y [mm];z [mm]\n2,1;80;412,30;-205.00;118\n", "line 2: ", "x is '412,30'; a plain number in mm with a point")]
    [InlineData(Head + "\"2,1\",80,NaN,-205.00,118\n", "line 2: ", "x is 'NaN'; a plain number")]
    [InlineData(Head + "\"2,1\",80,Infinity,-205.00,118\n", "line 2: ", "x is 'Infinity'; a plain number")]
    [InlineData(Head + "\"2,1\",80,4.123e2,-205.00,118\n", "line 2: ", "x is '4.123e2'; a plain number")]
    [InlineData(Head + "\"2,1\",80,+412.30,-205.00,118\n", "line 2: ", "x is '+412.30'; a plain number")]
    [InlineData(Head + "\"2,1\",80,412.30 mm,-205.00,118\n", "line 2: ", "x is '412.30 mm'; a plain number")]
    [InlineData(Head + "\"2,1\",80,,-205.00,118\n", "line 2: ", "x is ''; a plain number")]
    [InlineData(Head + "\"2,1\",0,412.30,-205.00,118\n", "line 2: ", "diameter is '0' mm; above 0 m to 10 m was expected")]
    [InlineData(Head + "\"2,1\",-80,412.30,-205.00,118\n", "line 2: ", "diameter is '-80'; a plain number")]
    [InlineData(Head + "\"2,1\",80,200000,-205.00,118\n", "line 2: ", "x is '200000' mm; from -100 m to 100 m was expected")]
    [InlineData(Head + "\"2;1\",80,412.30,-205.00,118\n", "line 2: ", "nest is '2;1'; column and row from 0, such as 2,1")]
    [InlineData(Head + "\"-2,1\",80,412.30,-205.00,118\n", "line 2: ", "nest is '-2,1'; column and row from 0")]
    [InlineData(Head + "\"2,1.0\",80,412.30,-205.00,118\n", "line 2: ", "nest is '2,1.0'; column and row from 0")]
    [InlineData(Head + "\"2,10000\",80,412.30,-205.00,118\n", "line 2: ", "nest is '2,10000'; column and row from 0")]
    [InlineData("column,row,diameter [mm],x [mm],y [mm],z [mm]\n2,x,80,412.30,-205.00,118\n", "line 2: ", "row is 'x'; a whole number from 0 to 9999")]
    [InlineData(Head + "\"2,1,80,412.30,-205.00,118\n", "line 2: ", "has a quote that does not end")]
    public void A_bad_table_names_the_line_and_what_was_expected(string text, string where, string says)
    {
        var faults = new Faults("touched.csv");

        Assert.Empty(TouchTable.Read(Encoding.UTF8.GetBytes(text), faults));

        var fault = Assert.Single(faults.All);
        Assert.StartsWith($"touched.csv: {where}", fault, StringComparison.Ordinal);
        Assert.Contains(says, fault, StringComparison.Ordinal);
    }

    [Fact]
    public void All_faults_are_reported_at_once()
    {
        var faults = new Faults("touched.csv");
        TouchTable.Read(Encoding.UTF8.GetBytes(Head + "\"x\",a,b,c,d\n" + Row + "\"0,0\",80,1\n"), faults);

        Assert.Equal(["line 2", "line 2", "line 2", "line 2", "line 2", "line 4"], faults.All.Select(f => f.Split(": ")[1]));
    }

    [Fact]
    public void A_file_that_is_not_text_is_refused()
    {
        var faults = new Faults("touched.csv");

        Assert.Empty(TouchTable.Read(new byte[] { 0xFF, 0xFE, 0x6E, 0x00 }, faults));
        Assert.Contains("is not UTF-8 text", Assert.Single(faults.All), StringComparison.Ordinal);
    }

    [Fact]
    public void A_table_cut_off_anywhere_is_read_short_or_refused_and_never_misread()
    {
        var bytes = Encoding.UTF8.GetBytes(Head + Row + "\"0,0\",80,651.36,186.14,239.93\n");
        var whole = Good(Encoding.UTF8.GetString(bytes));
        for (var length = 0; length < bytes.Length; length++)
        {
            var faults = new Faults("touched.csv");
            var rows = TouchTable.Read(bytes.AsMemory(0, length), faults);
            var last = rows.Count > 0 ? rows[^1] : null;

            // A last number that lost digits can't be told from another number; everything before it has to be unchanged.
            Assert.True(!faults.None || rows.SkipLast(1).SequenceEqual(whole.Take(rows.Count - 1)), $"cut at {length}");
            Assert.True(!faults.None || last is not null, $"cut at {length}: neither rows nor a fault");
        }
    }

    private static IReadOnlyList<TouchedRow> Good(string text)
    {
        var faults = new Faults("touched.csv");
        var rows = TouchTable.Read(Encoding.UTF8.GetBytes(text), faults);
        Assert.Empty(faults.All);
        return rows;
    }
}
