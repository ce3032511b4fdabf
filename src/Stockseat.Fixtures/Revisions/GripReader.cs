using Stockseat.Fixtures.Reading;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads how the position follows the stock's length.</summary>
internal static class GripReader
{
    public static Grip? Read(Section section)
    {
        var along = section.Text("along", longest: 1);
        if (along is not (null or "w"))
        {
            section.Faults.Add(section.At("along"), $"is \"{along}\"; \"w\", the normal, was expected: nothing else is corrected by a length");
        }

        var share = section.Number("share", new(0, 1));
        var taught = section.Length("taughtLength", Reading.Range.Size);
        var within = section.Length("within", Reading.Range.Gap, required: false);
        section.Finish();
        return share is { } s && taught is { } t && along is "w" ? new(s, t, within) : null;
    }
}
