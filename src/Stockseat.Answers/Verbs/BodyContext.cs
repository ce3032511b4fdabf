using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;

namespace Stockseat.Answers.Verbs;

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull, RespectNullableAnnotations = true)]
[JsonSerializable(typeof(AnswerBody))]
[JsonSerializable(typeof(RefusalBody))]
[JsonSerializable(typeof(MeasurementBody))]
[JsonSerializable(typeof(ConfirmationBody))]
[JsonSerializable(typeof(EmptiedBody))]
[JsonSerializable(typeof(HeldBody))]
[JsonSerializable(typeof(ReleasedBody))]
[JsonSerializable(typeof(RevisionAdoptedBody))]
[JsonSerializable(typeof(RevisionRejectedBody))]
[JsonSerializable(typeof(RecheckBody))]
[JsonSerializable(typeof(LotDescribedBody))]
[JsonSerializable(typeof(ServiceStartedBody))]
[JsonSerializable(typeof(ServiceStoppedBody))]
[JsonSerializable(typeof(UncleanStopBody))]
[JsonSerializable(typeof(ClockStepBody))]
[JsonSerializable(typeof(RolledOverBody))]
[JsonSerializable(typeof(SealBody))]
internal sealed partial class BodyContext : JsonSerializerContext;
