using Stockseat.Service.Configuration;

namespace Stockseat.Service.Examining;

/// <summary>What is looked at.</summary>
/// <param name="Settings">The merged settings.</param>
/// <param name="File">The configuration's file; null: there is none.</param>
/// <param name="Time">The clock.</param>
/// <param name="Runs">Whether a service runs in the data folder, or this user can't find out.</param>
internal sealed record Examined(Settings Settings, string? File, TimeProvider Time, bool Runs);
