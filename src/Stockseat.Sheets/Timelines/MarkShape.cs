namespace Stockseat.Sheets.Timelines;

/// <summary>The shapes of marks: they differ without any tone.</summary>
public enum MarkShape
{
    /// <summary>A filled disc.</summary>
    Disc,

    /// <summary>A ring.</summary>
    Ring,

    /// <summary>A filled triangle that stands.</summary>
    Triangle,

    /// <summary>A cross of two bars.</summary>
    Cross,

    /// <summary>A tick.</summary>
    Tick,

    /// <summary>A filled square.</summary>
    Square,

    /// <summary>A square with a cross inside.</summary>
    CrossedSquare,

    /// <summary>A bracket that opens.</summary>
    Opening,

    /// <summary>A bracket that closes.</summary>
    Closing,

    /// <summary>A diamond without filling.</summary>
    Diamond,

    /// <summary>A filled triangle that lies, pointing on.</summary>
    Pointer,

    /// <summary>An upright bar.</summary>
    Bar,

    /// <summary>A star of three bars.</summary>
    Star,

    /// <summary>A zigzag.</summary>
    Zigzag,

    /// <summary>A square without filling.</summary>
    Frame,

    /// <summary>A question mark.</summary>
    Question,

    /// <summary>Two upright bars.</summary>
    DoubleBar,

    /// <summary>An upright bar on a foot.</summary>
    Corner,

    /// <summary>An upright cross.</summary>
    Plus,
}
