using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Sqlite;
using ParticleLims.TestLaboratory.Databases;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Start;

/// <summary>The folder with the keys of the seal lies outside the database, and may get lost by itself.</summary>
public sealed class SealAtStartTests : IDisposable
{
    private const string Gone = "ready, but the key of the seal is gone: no certificate is issued";
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("particlelims-seal-");

    private string Folder => Path.Combine(place.FullName, "laboratory-seal");

    private string Aside => Path.Combine(place.FullName, "aside");

    [Fact]
    public async Task A_key_that_is_gone_is_said_and_nothing_is_sealed_until_it_is_put_back_or_another_was_made_on_purpose()
    {
        var lot = await IssueOneAsync();
        await using (var web = await StartAsync())
        {
            Directory.Exists(Folder).ShouldBeTrue();
            (await web.Client.GetStringAsync("/health/ready")).ShouldBe("ready");
        }

        Directory.Move(Folder, Aside);
        await using (var web = await StartAsync())
        {
            Directory.Exists(Folder).ShouldBeFalse("no key is made in silence");
            (await web.Client.GetStringAsync("/health/ready")).ShouldBe(Gone);
            (await web.Get<SealAtStart>().LookAsync("Tarnfell Milling", default))!.ShouldStartWith($"The key that sealed certificate {lot.Number} and others is not in {Folder}.");
            var alert = (await web.Get<AlertKeeping>().RecentAsync(lot.Administrator, 10, default)).ShouldHaveSingleItem("it is raised once a day, not at each look");
            alert.Kind.ShouldBe(AlertKind.SealKeyGone);
            await web.Get<CertificateIssue>().WithdrawAsync(lot.Quality, lot.Certificate, "Issued anew", 1, default);
            (await Should.ThrowAsync<RefusedException>(() => IssueAsync(web, lot))).Code.ShouldBe("seal-key-gone");

            Directory.Move(Aside, Folder);
            (await web.Client.GetStringAsync("/health/ready")).ShouldBe("ready", "the folder was put back");
            lot = await IssueAsync(web, lot);
            await ShouldBeGenuineAsync(web, lot);
        }

        Directory.Delete(Folder, recursive: true);
        (await SealCommands.Read(["new-seal-key", "Tarnfell Milling", "--data", place.FullName])!(TextWriter.Null)).ShouldBe(0);
        await using (var web = await StartAsync())
        {
            (await web.Client.GetStringAsync("/health/ready")).ShouldBe("ready");
            (await web.Get<SealAtStart>().LookAsync("Tarnfell Milling", default))!.ShouldStartWith($"The public part of the key that sealed certificate {lot.Number} is not in {Folder}");
            await web.Get<CertificateIssue>().WithdrawAsync(lot.Quality, lot.Certificate, "Issued anew", 1, default);
            await ShouldBeGenuineAsync(web, await IssueAsync(web, lot));
            (await web.Get<SealAtStart>().LookAsync("Tarnfell Milling", default)).ShouldBeNull();
        }
    }

    [Fact]
    public async Task A_key_that_cannot_be_read_is_said_in_words()
    {
        await (await (await StartAsync()).SetUpAsync()).DisposeAsync();
        MakeKey();
        await File.WriteAllTextAsync(Directory.GetFiles(Folder, "*.key.pem").Single(), "spoilt");
        (await Should.ThrowAsync<StartRefusedException>(StartAsync)).Message.ShouldStartWith($"A key of the seal in {Folder} cannot be read: ");
    }

    [Fact]
    public async Task The_backup_that_the_program_makes_holds_no_key()
    {
        var options = StartOptions.Read(["--data", place.FullName]);
        await using (var services = new ServiceCollection().AddSqliteStorage(options.DatabaseFile).BuildServiceProvider())
        {
            await using var data = await services.GetRequiredService<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
            await data.GetService<IMigrator>().MigrateAsync(data.Database.GetMigrations().First());
        }

        SqlitePools.LetGoIn(place);
        MakeKey();
        await using (await StartAsync())
        {
            var backup = Directory.GetFiles(options.BackupFolder, "*", SearchOption.AllDirectories).ShouldHaveSingleItem();
            Path.GetExtension(backup).ShouldBe(".db");
            var secret = (await File.ReadAllLinesAsync(Directory.GetFiles(Folder, "*.key.pem").Single()))[1];
            (await File.ReadAllTextAsync(backup, System.Text.Encoding.Latin1)).ShouldNotContain(secret);
        }
    }

    public void Dispose()
    {
        SqlitePools.LetGoIn(place);
        place.Delete(recursive: true);
    }

    private Task<RunningWeb> StartAsync() => RunningWeb.StartAsync("--data", place.FullName);

    private async Task<Issued> IssueOneAsync()
    {
        await using var web = await StartAsync();
        var small = await SmallLaboratory.SetUpAsync(web.Services, sievingSeconds: 1);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        return await IssueAsync(web, new Issued(lot.Id, lot.Sample.Id, small.People.QualityManager.Actor, small.People.Administrator.Actor));
    }

    private static async Task<Issued> IssueAsync(RunningWeb web, Issued lot)
    {
        var id = await web.Get<CertificateIssue>().IssueAsync(lot.Quality, lot.Lot, lot.Sample, null, default);
        return lot with { Certificate = id, Number = (await web.Get<CertificateShelf>().FindAsync(lot.Quality, id, default))!.Number };
    }

    private static async Task ShouldBeGenuineAsync(RunningWeb web, Issued lot) =>
        SealCheck.Check((await web.Get<CertificateShelf>().DownloadAsync(lot.Quality, lot.Certificate, default))!.Pdf, web.Get<SealKeys>().Certificates()).Outcome.ShouldBe(SealOutcome.Genuine);

    private void MakeKey()
    {
        using var keys = new SealKeys(Folder, TimeProvider.System);
        keys.Current("Tarnfell Milling");
    }

    private sealed record Issued(Guid Lot, Guid Sample, Actor Quality, Actor Administrator)
    {
        public Guid Certificate { get; init; }

        public string Number { get; init; } = string.Empty;
    }
}
