using Xunit.Sdk;
using Xunit.v3;

// The culture belongs to the whole process, and some of these tests change it.
[assembly: Parallelization(Mode = ParallelMode.None)]
