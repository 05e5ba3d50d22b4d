using System.Text.Json;
using System.Text.Json.Serialization;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Laboratory.Runs;

/// <summary>An evaluation's input as JSON in whole base units, so that reading it back gives the same request to the last bit.</summary>
internal static class EvaluationJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(), new Micrograms(), new Nanometres() },
    };

    public static string Write(EvaluationRequest request) => JsonSerializer.Serialize(request, Options);

    public static EvaluationRequest Read(string json) => JsonSerializer.Deserialize<EvaluationRequest>(json, Options)!;

    private sealed class Micrograms : JsonConverter<Mass>
    {
        public override Mass Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Mass.FromMicrograms(reader.GetInt64());

        public override void Write(Utf8JsonWriter writer, Mass value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Micrograms);
    }

    private sealed class Nanometres : JsonConverter<Aperture>
    {
        public override Aperture Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Aperture.FromNanometres(reader.GetInt64());

        public override void Write(Utf8JsonWriter writer, Aperture value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Nanometres);
    }
}
