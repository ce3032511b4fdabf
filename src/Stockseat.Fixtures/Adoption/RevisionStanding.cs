namespace Stockseat.Fixtures.Adoption;

/// <summary>The standing of a revision of a fixture.</summary>
public enum RevisionStanding
{
    /// <summary>Answers come from it.</summary>
    InForce = 1,

    /// <summary>It was in force once.</summary>
    AdoptedBefore = 2,

    /// <summary>It is valid and waits to be adopted.</summary>
    Waiting = 3,

    /// <summary>It is valid, was never adopted, and is below the one in force.</summary>
    Older = 4,

    /// <summary>Its file has faults.</summary>
    Faulty = 5,

    /// <summary>It was adopted with other values than its file now has.</summary>
    Changed = 6,
}
