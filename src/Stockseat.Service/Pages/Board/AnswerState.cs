namespace Stockseat.Service.Pages.Board;

/// <summary>Whether a fixture answers asks now.</summary>
public enum AnswerState
{
    Answers,

    /// <summary>It refuses asks that state no diameter, until somebody measures.</summary>
    MeasureFirst,

    /// <summary>It refuses every ask.</summary>
    Silent,
}

/// <summary>The signs and words for it, the same on every page.</summary>
public static class AnswerStateWords
{
    extension(AnswerState state)
    {
        public string Mark => state switch { AnswerState.Answers => "\u2713", AnswerState.MeasureFirst => "?", _ => "\u2715" };

        public string Said => state switch { AnswerState.Answers => "Answers", AnswerState.MeasureFirst => "Measure first", _ => "Does not answer" };

        public string Class => state switch { AnswerState.Answers => "answers", AnswerState.MeasureFirst => "measures", _ => "refuses" };
    }
}
