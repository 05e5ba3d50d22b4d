using System.Security.Cryptography;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Certificates;

public sealed class CertificateTests
{
    [Theory]
    [EachDatabase]
    public async Task An_issued_certificate_is_found_by_its_address_and_by_its_file_and_a_changed_file_is_not_ours(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = await IssuedAsync(laboratory);
        var check = small.Get<CertificateCheck>();
        var file = (await small.Get<CertificateShelf>().DownloadAsync(small.People.QualityManager.Actor, id, default))!.Pdf;
        var byFile = (await check.ByFileHashAsync(Hash(file), default))!;
        (byFile.Number, byFile.State, byFile.Issuer).ShouldBe(("C-26-00001", CertificateState.Issued, "Tarnfell Milling"));
        var token = await TokenAsync(laboratory, id);
        (await check.ByTokenAsync(token, default)).ShouldBe(byFile);
        (await check.ByFileHashAsync(Hash(file).ToUpperInvariant(), default)).ShouldBe(byFile);

        for (var position = 0; position < file.Length; position++)
        {
            file[position] ^= 1;
            (await check.ByFileHashAsync(Hash(file), default)).ShouldBeNull();
            file[position] ^= 1;
        }

        (await check.ByTokenAsync(token[..^1] + (token[^1] == '0' ? '1' : '0'), default)).ShouldBeNull();
        (await check.ByTokenAsync(string.Empty, default)).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_withdrawn_certificate_says_so_and_a_new_one_gets_a_new_number(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = await IssuedAsync(laboratory);
        var manager = small.People.QualityManager.Actor;
        var row = (await small.Get<CertificateShelf>().AllAsync(manager, null, null, 10, default)).Single();
        var refusal = await laboratory.ShouldRefuseAsync("certificate-issued", () => small.Desk.IssueAsync(row.LotId, SampleOf(laboratory)));
        refusal.Message.ShouldContain("C-26-00001");
        await small.Get<CertificateIssue>().WithdrawAsync(manager, id, "The customer's name was wrong", row.Version, default);
        (await small.Get<CertificateCheck>().ByTokenAsync(await TokenAsync(laboratory, id), default))!.State.ShouldBe(CertificateState.Withdrawn);
        await laboratory.ShouldRefuseAsync("certificate-state", () => small.Get<CertificateIssue>().WithdrawAsync(manager, id, "Twice by mistake", row.Version + 1, default));
        await small.Desk.IssueAsync(row.LotId, SampleOf(laboratory));
        (await small.Get<CertificateShelf>().AllAsync(manager, row.LotId, "c-26", 10, default)).Select(one => one.Number).ShouldBe(["C-26-00002", "C-26-00001"], ignoreOrder: true);
        (await small.Get<CertificateShelf>().DownloadAsync(manager, id, default)).ShouldNotBeNull("a withdrawn certificate stays readable");
    }

    [Theory]
    [EachDatabase]
    public async Task A_customer_sees_only_its_own_certificates(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = await IssuedAsync(laboratory);
        var shelf = small.Get<CertificateShelf>();
        (await shelf.AllAsync(small.People.Customer.Actor, null, null, 10, default)).ShouldHaveSingleItem();
        var stranger = await small.Get<Accounts>().CreateAsync(
            small.People.Administrator.Actor, new NewPerson("olin.hart", "Olin Hart", [Role.Customer], "seven blue kettles sing", null, small.OtherCustomer), null, default);
        var actor = new Actor(stranger, "web");
        (await shelf.AllAsync(actor, null, null, 10, default)).ShouldBeEmpty();
        (await shelf.DownloadAsync(actor, id, default)).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_certificate_is_issued_only_of_a_released_lot(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await lot.AcceptAsync();
        await laboratory.ShouldRefuseAsync("lot-not-released", () => small.Desk.IssueAsync(lot.Id, lot.Sample.Id));
    }

    [Theory]
    [EachDatabase]
    public async Task The_frozen_content_tells_what_was_measured_and_who_answers_for_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, id) = await IssuedAsync(laboratory);
        await using var data = laboratory.Data();
        var content = CertificateIssue.ReadContent(data.Certificates.Single(one => one.Id == id));
        content.Results.Select(line => (line.Characteristic, line.Lower, line.Upper, line.Result, line.Verdict))
            .ShouldBe([("Passing 45 µm", "97.0", "–", "98.0", "conforms"), ("D50", "20.0", "30.0", "22.9", "conforms")]);
        content.Sieves.Select(line => (line.Aperture, line.Residue, line.Passing)).ShouldBe([("63 µm", "0.020", "99.80"), ("45 µm", "0.200", "98.00"), ("32 µm", "2.500", "75.00"), ("20 µm", "6.000", "40.00")]);
        content.Signatures.Select(line => (line.Meaning, line.PrintedName)).ShouldBe([("performed", "Tom Reed"), ("reviewed", "Ruth Vale"), ("released", "Quinn Ashby")]);
        content.Customer.Name.ShouldBe("Veldt Surface Coatings");
        content.Conformity.ShouldBe("All results listed conform to specification SP-GC-45 version 1.");
        content.Remarks.ShouldBeEmpty();
    }

    private static async Task<(SmallLaboratory Small, Guid Id)> IssuedAsync(OpenedSmallLaboratory laboratory)
    {
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        return (laboratory.Small, await laboratory.Small.Desk.IssueAsync(lot.Id, lot.Sample.Id));
    }

    private static Guid SampleOf(OpenedSmallLaboratory laboratory)
    {
        using var data = laboratory.Data();
        return data.Certificates.First().SampleId;
    }

    private static async Task<string> TokenAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return (await data.Certificates.FindAsync(id))!.VerifyToken;
    }

    private static string Hash(byte[] file) => Convert.ToHexStringLower(SHA256.HashData(file));
}
