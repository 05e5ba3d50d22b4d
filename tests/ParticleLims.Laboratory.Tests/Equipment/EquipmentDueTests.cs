using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Equipment;

public sealed class EquipmentDueTests
{
    private static readonly DateOnly Today = new(2026, 3, 2);

    [Theory]
    [InlineData("2026-03-01", EquipmentDue.Overdue, "overdue since 2026-03-01")]
    [InlineData("2026-03-02", EquipmentDue.Soon, "due 2026-03-02")]
    [InlineData("2026-03-31", EquipmentDue.Soon, "due 2026-03-31")]
    [InlineData("2026-04-01", EquipmentDue.Soon, "due 2026-04-01")]
    [InlineData("2026-04-02", EquipmentDue.Later, "due 2026-04-02")]
    [InlineData("2027-03-15", EquipmentDue.Later, "due 2027-03-15")]
    public void A_sieve_in_service_is_due_by_its_date_and_its_last_day_still_counts(string dueOn, EquipmentDue due, string words)
    {
        var sieve = Sieve(EquipmentState.InService, DateOnly.ParseExact(dueOn, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        sieve.Due(Today).ShouldBe(due);
        sieve.DueWords(Today).ShouldBe(words);
        (sieve.UnfitReason(Today) is not null).ShouldBe(due == EquipmentDue.Overdue);
    }

    [Fact]
    public void In_service_without_any_date_is_overdue() => Sieve(EquipmentState.InService, null).Due(Today).ShouldBe(EquipmentDue.Overdue);

    [Fact]
    public void A_new_sieve_waits_for_its_commissioning() => Sieve(EquipmentState.AwaitingCommissioning, null).Due(Today).ShouldBe(EquipmentDue.ToCommission);

    [Theory]
    [InlineData(EquipmentState.OutOfService)]
    [InlineData(EquipmentState.Scrapped)]
    public void Nothing_falls_due_for_what_is_not_used(EquipmentState state)
    {
        Sieve(state, Today.AddDays(-9)).Due(Today).ShouldBe(EquipmentDue.Nothing);
        Sieve(state, Today.AddDays(-9)).Due(Today).NeedsEyes().ShouldBeFalse();
    }

    [Theory]
    [InlineData(EquipmentState.InService, "may be used until 2026-03-11")]
    [InlineData(EquipmentState.OutOfService, "OUT OF SERVICE")]
    [InlineData(EquipmentState.AwaitingCommissioning, "AWAITING COMMISSIONING")]
    public void A_label_says_until_when_an_item_may_be_used_or_that_it_may_not(EquipmentState state, string words) => Sieve(state, Today.AddDays(9)).LabelWords().ShouldBe(words);

    private static TestSieve Sieve(EquipmentState state, DateOnly? dueOn) => new()
    {
        Serial = "TS-063-2", Aperture = Aperture.FromMicrometres(63m), FrameMillimetres = 200, Standard = "ISO 3310-1:2016", Place = "Rack A", State = state, InspectionDueOn = dueOn,
    };
}
