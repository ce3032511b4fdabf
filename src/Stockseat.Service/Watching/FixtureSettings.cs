using Stockseat.Fixtures.Adoption;

namespace Stockseat.Service.Watching;

/// <summary>Where fixtures come from, and what happens to them.</summary>
/// <param name="Folder">The folder of the fixtures' folders.</param>
/// <param name="FirstAdoption">What happens to a fixture that the ledger has never seen.</param>
/// <param name="RefuseAfterMiss">Whether a recheck that missed refuses asks until another revision is adopted.</param>
/// <param name="ProvingRequired">Whether answers stay first until rechecks have proven the revision; else what is lacking is only shown.</param>
public sealed record FixtureSettings(string Folder, FirstAdoption FirstAdoption, bool RefuseAfterMiss = true, bool ProvingRequired = false);
