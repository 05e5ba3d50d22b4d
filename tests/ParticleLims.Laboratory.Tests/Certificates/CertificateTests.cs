using System.Security.Cryptography;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

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
    public async Task A_revision_has_its_own_number_says_what_it_replaces_and_the_old_one_says_by_what_it_was_superseded(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, first) = await IssuedAsync(laboratory);
        var manager = small.People.QualityManager.Actor;
        var bytes = (await small.Get<CertificateShelf>().DownloadAsync(manager, first, default))!.Pdf;
        await laboratory.ShouldRefuseAsync("what-changed-missing", () => small.Get<CertificateIssue>().ReviseAsync(manager, first, " ", "The customer asked", 1, null, default));
        var second = await small.Get<CertificateIssue>().ReviseAsync(manager, first, "The customer's reference.", "It was another order", 1, "revise-1", default);
        (await small.Get<CertificateIssue>().ReviseAsync(manager, first, "The customer's reference.", "It was another order", 1, "revise-1", default)).ShouldBe(second, "the same key asks for the same revision");

        await using var data = laboratory.Data();
        var (old, revised) = (data.Certificates.Single(one => one.Id == first), data.Certificates.Single(one => one.Id == second));
        (old.State, old.SupersededByNumber, revised.State, revised.Revision, revised.ReplacesId).ShouldBe((CertificateState.Superseded, "C-26-00002", CertificateState.Issued, 2, first));
        CertificateIssue.ReadContent(revised).Replaces.ShouldBe("C-26-00001, revision 1. The customer's reference. Reason: It was another order");
        (await small.Get<CertificateShelf>().DownloadAsync(manager, first, default))!.Pdf.ShouldBe(bytes, "what was issued never changes");
        var check = (await small.Get<CertificateCheck>().ByTokenAsync(old.VerifyToken, default))!;
        (check.State, check.SupersededBy).ShouldBe((CertificateState.Superseded, "C-26-00002"));
        await laboratory.ShouldRefuseAsync("certificate-state", () => small.Get<CertificateIssue>().ReviseAsync(manager, first, "Once more", "By mistake", old.Version, null, default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_suspended_certificate_is_not_to_be_relied_on_until_it_is_reinstated(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = await IssuedAsync(laboratory);
        var manager = small.People.QualityManager.Actor;
        await laboratory.ShouldRefuseAsync("certificate-state", () => small.Get<CertificateLife>().ReinstateAsync(manager, id, "It is not suspended", 1, default));
        await small.Get<CertificateLife>().SuspendAsync(manager, id, "The customer found lumps", 1, default);
        var token = await TokenAsync(laboratory, id);
        (await small.Get<CertificateCheck>().ByTokenAsync(token, default))!.State.ShouldBe(CertificateState.Suspended);
        await laboratory.ShouldRefuseAsync("certificate-issued", () => small.Desk.IssueAsync(laboratory.Data().Certificates.Single().LotId, SampleOf(laboratory)));
        await small.Get<CertificateLife>().ReinstateAsync(manager, id, "Lumps from damp storage there", 2, default);
        (await small.Get<CertificateCheck>().ByTokenAsync(token, default))!.State.ShouldBe(CertificateState.Issued);
        await small.Get<CertificateLife>().SuspendAsync(manager, id, "Lumps again", 3, default);
        await small.Get<CertificateIssue>().WithdrawAsync(manager, id, "The wrong sample was divided", 4, default);
        (await small.Get<CertificateCheck>().ByTokenAsync(token, default))!.State.ShouldBe(CertificateState.Withdrawn);
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
        content.Conditions.ShouldContain("No flow aid.");
        content.Measurements!.Runs.ShouldAllBe(run => run.Weighings == null, "readings are handed out only where the laboratory allows it");
    }

    [Theory]
    [EachDatabase]
    public async Task A_customer_gets_its_certificates_as_it_wants_them(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var keeping = small.Get<CustomerKeeping>();
        var (manager, wishes) = (small.People.LaboratoryManager.Actor, new CertificateWishes { Language = "de", Paper = "Letter", RosinRammlerNet = true, Weighings = true });
        var customer = (await keeping.AllAsync(manager, default)).Single(one => one.Id == small.Customer);
        CustomerCard Card(CertificateWishes wanted) => new(customer.Name, customer.Address, customer.Contact) { Certificates = wanted };
        await laboratory.ShouldRefuseAsync("certificate-language", () => keeping.ChangeAsync(manager, customer.Id, Card(wishes with { Language = "xx" }), "They wrote so", customer.Version, default));
        await laboratory.ShouldRefuseAsync("certificate-paper", () => keeping.ChangeAsync(manager, customer.Id, Card(wishes with { Paper = "A0" }), "They wrote so", customer.Version, default));
        await keeping.ChangeAsync(manager, customer.Id, Card(wishes), "They wrote so", customer.Version, default);
        (await keeping.AllAsync(manager, default)).Single(one => one.Id == small.Customer).Certificates.ShouldBe(wishes);

        var (_, id) = await IssuedAsync(laboratory);
        await using var data = laboratory.Data();
        var content = CertificateIssue.ReadContent(data.Certificates.Single(one => one.Id == id));
        (content.Language, content.Paper, content.RosinRammlerNet).ShouldBe(("de", "Letter", true));
        content.Results.Select(line => (line.Characteristic, line.Lower, line.Result, line.Verdict)).ShouldBe([("Durchgang 45 µm", "97,0", "98,0", "erfüllt"), ("D50", "20,0", "22,9", "erfüllt")]);
        content.Conformity.ShouldBe("Alle aufgeführten Ergebnisse erfüllen die Spezifikation SP-GC-45 Version 1.");
        content.Signatures.Select(line => (line.Meaning, line.Function)).ShouldBe([("durchgeführt", "Labor"), ("geprüft", "Prüfung"), ("freigegeben", "Qualitätsleitung")]);
        var run = content.Measurements!.Runs.ShouldHaveSingleItem();
        run.Weighings!.Count.ShouldBe(data.Weighings.Count(weighing => weighing.SupersedesId == null));
        run.Weighings.ShouldAllBe(weighing => weighing.Micrograms > 0);
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
