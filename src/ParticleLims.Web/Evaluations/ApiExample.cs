namespace ParticleLims.Web.Evaluations;

/// <summary>The example that the description and the readable page show; a test sends it.</summary>
internal static class ApiExample
{
    public const string Request = """
        {
          "procedure": "carriedResidue",
          "cuts": [
            { "apertureMicrometres": 20, "emptyGrams": "312.345", "loadedGrams": "324.345", "afterGrams": "321.105" },
            { "apertureMicrometres": 45, "emptyGrams": "305.120", "afterGrams": "310.640" },
            { "apertureMicrometres": 90, "emptyGrams": "298.774", "afterGrams": "299.494" }
          ],
          "settings": { "interpolation": "logLinear", "percentiles": [10, 50, 90] },
          "limits": [
            { "characteristic": "percentile", "percent": 50, "lower": 38, "upper": 48, "digits": 1 },
            { "characteristic": "passing", "apertureMicrometres": 90, "lower": 93, "digits": 1 }
          ]
        }
        """;
}
