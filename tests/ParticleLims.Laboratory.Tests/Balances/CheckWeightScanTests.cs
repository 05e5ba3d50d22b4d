using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Balances;

public sealed class CheckWeightScanTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);
    private static readonly Balance Bench = new() { Serial = "B-1", Name = "Bench 1", Place = "Bench 1", Host = string.Empty, ReadingFormat = "Plain line", CheckWeight = Mass.FromGrams(100m) };
    private static readonly List<CheckWeight> Weights =
    [
        Weight("W-100-1", 100m, EquipmentState.InService, Today), Weight("W-100-2", 100m, EquipmentState.InService, Today.AddDays(-1)), Weight("W-100-3", 100m, EquipmentState.OutOfService, Today),
        Weight("W-50-1", 50m, EquipmentState.InService, Today),
    ];

    [Theory]
    [InlineData("W-100-1")]
    [InlineData(" w-100-1 ")]
    public void A_scanned_label_names_its_weight(string code) => CheckWeightScan.Find(Weights, Bench, code, Today).Serial.ShouldBe("W-100-1");

    [Theory]
    [InlineData("TS-063-1", "code-unknown", "“TS-063-1” is no check weight of this laboratory. The balance Bench 1 (B-1) is checked with 100.0000 g.")]
    [InlineData("W-50-1", "weight-other", "not with the check weight 50 g F1 (W-50-1). Take the right one.")]
    [InlineData("W-100-2", "weight-unfit", "was due for inspection on 2026-03-01")]
    [InlineData("W-100-3", "weight-unfit", "is out of service")]
    public void Another_label_is_refused_in_words(string code, string refusal, string words)
    {
        var refused = Should.Throw<RefusedException>(() => CheckWeightScan.Find(Weights, Bench, code, Today));
        refused.Code.ShouldBe(refusal);
        refused.Message.ShouldContain(words);
    }

    [Fact]
    public void Where_only_one_weight_counts_it_is_the_obvious_one_and_the_expired_one_beside_it_is_not_offered()
    {
        CheckWeightScan.For(Weights, Bench, Today).Select(weight => weight.Serial).ShouldBe(["W-100-1"]);
        CheckWeightScan.Obvious(Weights, Bench, Today)!.Serial.ShouldBe("W-100-1");
        CheckWeightScan.Obvious(Weights, Bench, Today.AddDays(1)).ShouldBeNull("its certificate has ended");
        CheckWeightScan.Obvious([.. Weights, Weight("W-100-4", 100m, EquipmentState.InService, Today)], Bench, Today).ShouldBeNull("nobody but the person at the balance knows which one lies there");
    }

    private static CheckWeight Weight(string serial, decimal grams, EquipmentState state, DateOnly due) => new()
    {
        Serial = serial, Nominal = Mass.FromGrams(grams), Class = WeightClass.F1, Place = "Case", ConventionalMass = Mass.FromGrams(grams), Certificate = "K-1", State = state, InspectionDueOn = due,
    };
}
