using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>How the record reads to a person; what it keeps is left as it is.</summary>
public sealed class RecordedWordsTests
{
    private static readonly Guid Lot = Guid.Parse("019abf2d-2c00-7e81-93e2-87af60952402");
    private static readonly RecordReader Reader = new(at => at.ToOffset(TimeSpan.FromHours(2)).ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture), new Dictionary<Guid, string> { [Lot] = "lot 4711" });

    [Theory]
    [InlineData("Run", "LotId", "019abf2d-2c00-7e81-93e2-87af60952402", "Lot", "lot 4711")]
    [InlineData("Run", "SampleId", "019abf2d-2c00-7e81-93e2-87af60952499", "Sample", "key 019abf2d-2c00-7e81-93e2-87af60952499")]
    [InlineData("Run", "State", "InProgress", "State", "in progress")]
    [InlineData("Run", "SubmittedAt", "2026-06-01T22:30:00.000000Z", "Submitted at", "2026-06-02 00:30 +02:00")]
    [InlineData("Weighing", "At", "2026-06-01T08:00:00.000000Z", "When", "2026-06-01 10:00 +02:00")]
    [InlineData("Lot", "MadeOn", "11/27/2025", "Made on", "2025-11-27")]
    [InlineData("Lot", "QuantityKilograms", "21300", "Quantity", "21300 kg")]
    [InlineData("Person", "Active", "True", "Active", "yes")]
    [InlineData("MethodVersion", "EndPoint.MostChangePercent", "5", "End point most change", "5 %")]
    [InlineData("MethodVersion", "Seconds", "120", "Sieving time", "120 s")]
    [InlineData("MethodVersion", "Procedure", "CarriedResidue", "Procedure", "air jet, carried residue")]
    [InlineData("Weighing", "Mass", "270.4220 g", "Mass", "270.4220 g")]
    [InlineData("SieveInspection", "Faults", "Tear, SlackCloth", "Faults", "tear, slack cloth")]
    [InlineData("Certificate", "CustomerId", "019abf2d-2c00-7e81-93e2-87af60952402", "Customer", "lot 4711")]
    [InlineData("CertificateHold", "CaseKind", "EquipmentFailure", "Case kind", "equipment failure")]
    [InlineData("Lot", "CustomerReference", "True", "Customer reference", "True")]
    [InlineData("ThingOfAnEarlierRelease", "OldValue", "2026-06-01T08:00:00.000000Z", "Old value", "2026-06-01T08:00:00.000000Z")]
    public void A_value_is_told_in_words_with_its_unit_in_the_time_of_the_laboratory(string thing, string name, string recorded, string nameInWords, string text)
    {
        var one = Event(thing, $"{Lot}", name, recorded);
        var value = RecordDifference.InWords(one, Reader).ShouldHaveSingleItem().Values.ShouldHaveSingleItem();
        (value.Name, value.Before, value.After).ShouldBe((nameInWords, null, text));
        RecordDifference.Of(one).Single().Values.Single().After.ShouldNotBeNull();
    }

    [Fact]
    public void Which_role_was_granted_stands_in_the_words_and_not_only_in_a_key() =>
        RecordDifference.InWords(Event("PersonRole", $"{Lot}/QualityManager", "GrantedAt", "2026-06-01T08:00:00.000000Z"), Reader).Single().Thing.ShouldBe("Person role quality manager");

    [Fact]
    public void No_value_of_the_whole_model_reads_like_a_name_of_the_program()
    {
        // Words with a capital in their middle, points and keys are what a program writes.
        var names = typeof(RecordEvent).Assembly.GetTypes().Where(type => type is { IsClass: true, IsNested: false } && typeof(ParticleLims.Laboratory.Storage.IVersioned).IsAssignableFrom(type))
            .SelectMany(type => type.GetProperties().Select(property => RecordedWords.Name(type.Name, property.Name))).ToList();
        names.Count.ShouldBeGreaterThan(100);
        names.ShouldAllBe(name => !name.Contains('.') && !name.Skip(1).Any(char.IsUpper));
    }

    [Theory]
    [EachDatabase]
    public async Task Things_whose_keys_stand_in_values_are_named_for_a_reader_who_asks(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = opened.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var question = new RecordQuestion(lot.Sample.Id);
        var reading = opened.Running.Get<RecordReading>();
        (await reading.FindAsync(small.People.Reviewer.Actor, question, 0, 10, default)).Names.ShouldBeEmpty();
        var page = await reading.FindAsync(small.People.Reviewer.Actor, question with { WithNames = true }, 0, 10, default);
        var number = (await small.Desk.EvidenceAsync(lot.Id)).Lot.Number;
        page.Names[lot.Id].ShouldBe($"lot {number}");
        var told = RecordDifference.InWords(page.Events.Single(one => one.Code == "samples.book-in"), new RecordReader(_ => "then", page.Names));
        told.Single(one => one.Thing == "Sample").Values.Single(value => value.Name == "Lot").After.ShouldBe($"lot {number}");
        told.Single(one => one.Thing == "Sample").Values.Single(value => value.Name == "Received at").After.ShouldBe("then");
    }

    private static RecordEvent Event(string thing, string id, string name, string recorded) => new()
    {
        Sequence = 1, PersonName = "Tom", Terminal = "Bench 1", Code = "some.deed", SubjectKind = thing, SubjectLabel = "it", SearchText = "IT", PreviousHash = "0", Hash = "1",
        Changes = $$$"""[{"thing":"{{{thing}}}","id":"{{{id}}}","change":"added","values":{"{{{name}}}":[null,"{{{recorded}}}"]}}]""",
    };
}
