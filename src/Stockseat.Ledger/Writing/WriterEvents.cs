namespace Stockseat.Ledger.Writing;

/// <summary>Whom the writer's thread tells what happened.</summary>
/// <param name="FixturesChanged">A fixture may have begun or stopped answering.</param>
/// <param name="Committed">So many asks were decided, written and synced together, in that time; their answers have left.</param>
internal sealed record WriterEvents(Action FixturesChanged, Action<int, TimeSpan> Committed);
