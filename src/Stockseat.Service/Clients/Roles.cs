namespace Stockseat.Service.Clients;

/// <summary>What a client may do.</summary>
[Flags]
public enum Roles
{
    /// <summary>Only look at the state.</summary>
    None = 0,

    /// <summary>Ask where the origin is, confirm, say that the nests were emptied.</summary>
    Locate = 1,

    /// <summary>Push measurements, say that the nests were emptied.</summary>
    Measure = 2,

    /// <summary>Read and check the ledger.</summary>
    Review = 4,

    /// <summary>Put revisions into force, hold, release and recheck fixtures, roll the ledger over.</summary>
    Calibrate = 8,

    /// <summary>All of them.</summary>
    All = Locate | Measure | Review | Calibrate,
}
