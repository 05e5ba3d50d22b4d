using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Tests.Demonstration;

public sealed class DemonstrationMakingTests
{
    [Fact]
    public async Task The_same_seed_gives_the_same_weighings_and_other_secrets_another_seed_gives_other_weighings()
    {
        var (first, second, third) = (await MakeAsync(7), await MakeAsync(7), await MakeAsync(8));
        await using var one = first.Running;
        await using var again = second.Running;
        await using var other = third.Running;
        var weighings = await WeighingsAsync(one);
        (await WeighingsAsync(again)).ShouldBe(weighings);
        (await WeighingsAsync(other)).ShouldNotBe(weighings);
        (await StatesAsync(other)).ShouldBe(await StatesAsync(one));
        first.Access.People.Select(person => person.Password).ShouldNotContain(password => second.Access.People.Any(person => person.Password == password));
        first.Access.ApiToken.ShouldNotBe(second.Access.ApiToken);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task A_making_that_was_ended_leaves_nothing_and_is_begun_anew(DatabaseKind kind)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(kind);
        using var ending = new CancellationTokenSource();
        var months = 0;
        var demonstration = laboratory.Get<DemonstrationLaboratory>();
        await Should.ThrowAsync<OperationCanceledException>(() => demonstration.OpenAsync(MadeLaboratories.Month, new Told(_ => EndInTheLastMonth()), ending.Token));
        (await laboratory.Get<LaboratorySetUp>().IsDoneAsync(default)).ShouldBeFalse();
        await using (var data = laboratory.Data())
        {
            (await data.Set<Lot>().CountAsync()).ShouldBe(0);
            (await data.Set<RecordEvent>().CountAsync()).ShouldBe(1);
        }

        (await demonstration.OpenAsync(MadeLaboratories.Month, null, default)).ShouldNotBeNull();

        void EndInTheLastMonth()
        {
            if (++months == 5)
            {
                ending.Cancel();
            }
        }
    }

    [Fact]
    public async Task A_deed_that_fails_leaves_nothing_of_the_history()
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(DatabaseKind.Sqlite, services => services.AddSingleton<ICertificateDrawing, NoPaper>());
        var fault = await Should.ThrowAsync<InvalidOperationException>(() => laboratory.Get<DemonstrationLaboratory>().OpenAsync(MadeLaboratories.Month, null, default));
        fault.Message.ShouldBe("no paper");
        (await laboratory.Get<LaboratorySetUp>().IsDoneAsync(default)).ShouldBeFalse();
    }

    [Fact]
    public async Task The_access_file_is_written_and_its_secrets_are_those_of_the_laboratory()
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-access-");
        try
        {
            var path = Path.Combine(folder.FullName, DemonstrationAccessFile.FileName);
            var made = await MadeLaboratory.MakeAsync(DatabaseKind.Sqlite, MadeLaboratories.Month with { AccessFile = path });
            await using var laboratory = made.Running;
            var lines = (await File.ReadAllLinesAsync(path)).Select(line => line.Split(": ", 2)).ToDictionary(parts => parts[0], parts => parts[1]);
            lines["api-token"].ShouldBe(made.Access.ApiToken);
            lines["technician.1.role"].ShouldBe("Laboratory technician");
            lines["technician.1.sign-on"].ShouldBe("maren.holt");
            made.Access.People.ShouldAllBe(person => lines[person.Key + ".password"] == person.Password && lines[person.Key + ".pin"] == person.Pin && lines[person.Key + ".name"] == person.FullName);
            if (!OperatingSystem.IsWindows())
            {
                File.GetUnixFileMode(path).ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite);
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData(29)]
    [InlineData(731)]
    public async Task A_history_has_thirty_days_to_two_years(int days)
    {
        await using var laboratory = await RunningLaboratory.OpenAsync(DatabaseKind.Sqlite);
        await Should.ThrowAsync<ArgumentOutOfRangeException>(() => laboratory.Get<DemonstrationLaboratory>().OpenAsync(MadeLaboratories.Month with { Days = days }, null, default));
    }

    private static Task<MadeLaboratory> MakeAsync(int seed) => MadeLaboratory.MakeAsync(DatabaseKind.Sqlite, MadeLaboratories.Month with { Seed = seed });

    private static async Task<List<string>> WeighingsAsync(RunningLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return await data.Weighings.OrderBy(weighing => weighing.At).Select(weighing => $"{weighing.At} {weighing.Kind} {weighing.Position} {weighing.RawLine} {weighing.PersonName}").ToListAsync();
    }

    private static async Task<List<string>> StatesAsync(RunningLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        return [.. (await data.Set<Lot>().Select(lot => lot.State).Distinct().ToListAsync()).Select(state => state.ToString()).Order(StringComparer.Ordinal)];
    }

    private sealed class Told(Action<string> hear) : IProgress<string>
    {
        public void Report(string value) => hear(value);
    }

    private sealed class NoPaper : ICertificateDrawing
    {
        public byte[] Draw(CertificateContent content, string? contentHash = null, byte[]? logo = null) => throw new InvalidOperationException("no paper");

        public byte[] DrawSealed(CertificateContent content, string twin, byte[]? logo = null) => throw new InvalidOperationException("no paper");
    }
}
