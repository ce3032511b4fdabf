namespace Stockseat.Sheets.Timelines;

/// <summary>The shapes of marks: they can be told apart without colours or greys.</summary>
public enum MarkShape
{
    /// <summary>A filled disc.</summary>
    Disc,

    /// <summary>A ring.</summary>
    Ring,

    /// <summary>A filled triangle, pointing up.</summary>
    Triangle,

    /// <summary>A cross of two bars.</summary>
    Cross,

    /// <summary>A tick.</summary>
    Tick,

    /// <summary>A filled square.</summary>
    Square,

    /// <summary>A square with a cross inside.</summary>
    CrossedSquare,

    /// <summary>An opening bracket.</summary>
    Opening,

    /// <summary>A closing bracket.</summary>
    Closing,

    /// <summary>An open diamond.</summary>
    Diamond,

    /// <summary>A filled triangle, pointing to the right.</summary>
    Pointer,

    /// <summary>An upright bar.</summary>
    Bar,

    /// <summary>A star of three bars.</summary>
    Star,

    /// <summary>A zigzag.</summary>
    Zigzag,

    /// <summary>An open square.</summary>
    Frame,

    /// <summary>A question mark.</summary>
    Question,

    /// <summary>Two upright bars.</summary>
    DoubleBar,

    /// <summary>An upright bar on a foot.</summary>
    Corner,

    /// <summary>An upright cross.</summary>
    Plus,

    /// <summary>An open triangle, pointing up.</summary>
    OpenTriangle,

    /// <summary>Two ticks.</summary>
    DoubleTick,

    /// <summary>A sheet with a folded corner.</summary>
    Page,
}
