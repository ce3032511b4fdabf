using Xunit.Sdk;
using Xunit.v3;

// The culture of a process is shared, and some of these tests change it.
[assembly: Parallelization(Mode = ParallelMode.None)]
