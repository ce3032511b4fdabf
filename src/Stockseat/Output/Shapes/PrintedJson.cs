using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>What is printed for machines. What is not known is absent, but where a shape says that it is null.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(AnswerShape))]
[JsonSerializable(typeof(CalibrationShape))]
[JsonSerializable(typeof(CertificateMadeShape))]
[JsonSerializable(typeof(CertificateShape))]
[JsonSerializable(typeof(CheckShape))]
[JsonSerializable(typeof(DoneShape))]
[JsonSerializable(typeof(EntryShape))]
[JsonSerializable(typeof(ExaminedShape))]
[JsonSerializable(typeof(FixtureShape))]
[JsonSerializable(typeof(FormShape))]
[JsonSerializable(typeof(GridShape))]
[JsonSerializable(typeof(LotShape))]
[JsonSerializable(typeof(NestPlanShape))]
[JsonSerializable(typeof(OffsetTableShape))]
[JsonSerializable(typeof(RecheckShape))]
[JsonSerializable(typeof(ReplayShape))]
[JsonSerializable(typeof(ReviewShape))]
[JsonSerializable(typeof(RevisionShape))]
[JsonSerializable(typeof(Dictionary<string, SettingShape>))]
[JsonSerializable(typeof(StoredLedgerShape))]
[JsonSerializable(typeof(StoredVerificationShape))]
[JsonSerializable(typeof(VerificationShape))]
internal sealed partial class PrintedJson : JsonSerializerContext;
