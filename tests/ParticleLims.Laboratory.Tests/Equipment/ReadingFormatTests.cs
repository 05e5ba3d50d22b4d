using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Equipment;

public sealed class ReadingFormatTests
{
    private const string Why = "The converter writes it so";

    private static readonly ReadingFormatCard Good = new()
    {
        Name = " Bench converter ", Pattern = "(?<stable>[!?]) (?<value>[0-9,]+) (?<unit>[a-z]+)", StableMarks = "!", UnstableMarks = "?", Units = "g ct=0.2", DecimalComma = true,
        LineEnd = LineEnd.LineFeed, MostCharacters = 40, Command = "SEND", CommandEnd = LineEnd.CarriageReturn, AskEveryMilliseconds = 500, LostAfterMilliseconds = null,
    };

    [Theory]
    [EachDatabase]
    public async Task Every_laboratory_starts_with_the_plain_line(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var formats = await AllAsync(laboratory);
        formats.Select(format => format.Name).ShouldBe(["Plain line", "Plain line with checksum"]);
        formats.ShouldAllBe(format => format.Version == 1);
    }

    [Theory]
    [EachDatabase]
    public async Task A_format_comes_back_as_it_was_written_and_its_name_stays(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (keeping, manager) = Keeper(laboratory);
        var id = await keeping.AddAsync(manager, Good, "one", default);
        (await keeping.AddAsync(manager, Good, "one", default)).ShouldBe(id);
        (await FindAsync(laboratory, id)).Card().ShouldBe(Good with { Name = "Bench converter" });

        var changed = Good with { Name = "another", Units = "kg", Command = null, AskEveryMilliseconds = null, LostAfterMilliseconds = 2_000, WithoutMark = LineWithoutMark.Stable };
        await keeping.ChangeAsync(manager, id, changed, Why, 1, default);
        var kept = await FindAsync(laboratory, id);
        kept.Card().ShouldBe(changed with { Name = "Bench converter" });
        kept.Version.ShouldBe(2);
        var last = await laboratory.LastEventAsync();
        (last.Code, last.Reason, last.SubjectLabel).ShouldBe(("reading-formats.change", Why, "Bench converter"));
        last.Changes.ShouldContain("\"Units\":[\"g ct=0.2\",\"kg\"]");
    }

    [Theory]
    [EachDatabase]
    public async Task What_could_not_be_read_by_is_not_kept(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (keeping, manager) = Keeper(laboratory);
        foreach (var (card, code) in new (ReadingFormatCard, string)[]
        {
            (Good with { Name = " " }, "format-incomplete"), (Good with { Name = new string('n', 61) }, "format-incomplete"), (Good with { Name = "Plain line " }, "format-name-used"),
            (Good with { Pattern = "(?<value>[0-9]+)" }, "format-unusable"), (Good with { StableMarks = new string('!', 61) }, "text-too-long"),
        })
        {
            await laboratory.ShouldRefuseAsync(code, () => keeping.AddAsync(manager, card, null, default));
        }

        var plain = (await AllAsync(laboratory))[0];
        await laboratory.ShouldRefuseAsync("format-unusable", () => keeping.ChangeAsync(manager, plain.Id, plain.Card() with { Pattern = "(?<unit>g)" }, Why, 1, default));
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => keeping.ChangeAsync(manager, plain.Id, plain.Card(), Why, 2, default));
        await laboratory.ShouldRefuseAsync("reason-missing", () => keeping.ChangeAsync(manager, plain.Id, plain.Card(), "no", 1, default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_format_goes_away_only_when_no_balance_is_read_by_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (keeping, manager) = Keeper(laboratory);
        var (plain, balance) = ((await AllAsync(laboratory))[0], laboratory.Small.BalanceId);
        (await laboratory.ShouldRefuseAsync("format-in-use", () => keeping.RemoveAsync(manager, plain.Id, Why, 1, default))).Message.ShouldContain("Bench 1");

        var register = laboratory.Get<BalanceRegister>();
        await laboratory.ShouldRefuseAsync("format-unknown", () => register.ChangeFormatAsync(manager, balance, "plain line", 2, default));
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => register.ChangeFormatAsync(manager, balance, "Plain line with checksum", 1, default));
        await register.ChangeFormatAsync(manager, balance, "Plain line with checksum", 2, default);
        await keeping.RemoveAsync(manager, plain.Id, Why, 1, default);
        (await AllAsync(laboratory)).Select(format => format.Name).ShouldBe(["Plain line with checksum"]);
        (await laboratory.LastEventAsync()).Changes.ShouldContain("removed");
    }

    [Theory]
    [EachDatabase]
    public async Task A_scrapped_balance_holds_no_format(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (keeping, manager) = Keeper(laboratory);
        var life = laboratory.Get<EquipmentLife<Balance>>();
        await life.StopAsync(manager, laboratory.Small.BalanceId, "It fell to the floor", 2, default);
        await life.ScrapAsync(manager, laboratory.Small.BalanceId, "It cannot be mended", 3, default);
        (await keeping.RemoveAsync(manager, (await AllAsync(laboratory))[0].Id, Why, 1, default)).ShouldBeTrue();
    }

    private static (ReadingFormatKeeping Keeping, Actor Manager) Keeper(OpenedSmallLaboratory laboratory) => (laboratory.Get<ReadingFormatKeeping>(), laboratory.Small.People.LaboratoryManager.Actor);

    private static Task<List<ReadingFormat>> AllAsync(OpenedSmallLaboratory laboratory) => laboratory.Get<ReadingFormatKeeping>().AllAsync(laboratory.Small.People.Administrator.Actor, default);

    private static async Task<ReadingFormat> FindAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return await data.ReadingFormats.AsNoTracking().SingleAsync(format => format.Id == id);
    }
}
