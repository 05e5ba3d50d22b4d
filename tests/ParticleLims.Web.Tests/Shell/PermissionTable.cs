namespace ParticleLims.Web.Tests.Shell;

/// <summary>
/// The one table of who may open what: each page and each endpoint with the permission it needs, "signed on" where any account does,
/// "anybody" where none is needed, or "token" with its scope. A page or an endpoint without a row fails the test beside this file.
/// </summary>
internal static class PermissionTable
{
    public const string Pages = """
        /                                   signed on
        /access-review                      SeeAccess
        /account                            signed on
        /activate                           anybody
        /alerts                             KeepSettings
        /answer/{Status:int}                anybody
        /api                                anybody
        /bench                              CarryOutRuns
        /bench/{RunId:guid}                 CarryOutRuns
        /certificates                       SeeCertificates
        /certificates/several               IssueCertificates
        /certificates/templates             SeeLaboratory
        /certificates/templates/new         WriteDocuments
        /certificates/templates/{Id:guid}   SeeLaboratory
        /certificates/templates/{Id:guid}/revise  WriteDocuments
        /certificates/{Id:guid}             SeeLaboratory
        /customers                          SeeLaboratory
        /customers/{Id:guid}                SeeLaboratory
        /decisions                          SeeLaboratory
        /decisions/{LotId:guid}             SeeLaboratory
        /demonstration/pan                  SeeLaboratory
        /equipment                          SeeLaboratory
        /equipment/balances/new             KeepEquipment
        /equipment/balances/{Id:guid}       SeeLaboratory
        /equipment/check-weights            SeeLaboratory
        /equipment/check-weights/new        KeepEquipment
        /equipment/check-weights/{Id:guid}  SeeLaboratory
        /equipment/failures/{Id:guid}       SeeLaboratory
        /equipment/import                   KeepEquipment
        /equipment/labels                   SeeLaboratory
        /equipment/reading-formats          KeepReadingFormats
        /equipment/reference-materials      SeeLaboratory
        /equipment/sieves/new               KeepEquipment
        /equipment/sieves/{Id:guid}         SeeLaboratory
        /equipment/tolerances  SeeLaboratory
        /equipment/sieves/{Id:guid}/inspect  InspectSieves
        /equipment/sieving-units/new        KeepEquipment
        /equipment/sieving-units/{Id:guid}  SeeLaboratory
        /enrol                              anybody
        /error                              anybody
        /investigations                     SeeLaboratory
        /investigations/figures             Investigate
        /investigations/{Id:guid}           SeeLaboratory
        /lots                               SeeLaboratory
        /lots/new                           BookIn
        /lots/{Id:guid}                     SeeLaboratory
        /lots/{LotId:guid}/sample           BookIn
        /methods                            SeeLaboratory
        /methods/new                        WriteDocuments
        /methods/{Id:guid}                  SeeLaboratory
        /methods/{Id:guid}/revise           WriteDocuments
        /not-found                          anybody
        /outgoing                           KeepSettings
        /people                             KeepPeople
        /people/new                         KeepPeople
        /people/{Id:guid}                   KeepPeople
        /products                           SeeLaboratory
        /record                             ReadRecord
        /record/heads                       ReadRecord
        /review                             ReviewRuns
        /review/{RunId:guid}                SeeLaboratory
        /samples/{Id:guid}/label            SeeLaboratory
        /set-up                             anybody
        /settings                           KeepSettings
        /sign-on                            anybody
        /specifications                     SeeLaboratory
        /specifications/new                 WriteDocuments
        /specifications/{Id:guid}           SeeLaboratory
        /specifications/{Id:guid}/revise    WriteDocuments
        /terminals                          KeepTerminals
        /terminals/enrol                    KeepTerminals
        /verify                             anybody
        /verify/{Token}                     anybody
        """;

    public const string Endpoints = """
        GET /certificates/draft                                 SeeLaboratory
        GET /certificates/templates/drafts/{key:guid}/preview   WriteDocuments
        GET /certificates/templates/logos/{sha256:regex(^[0-9a-f]{{64}}$)}  SeeLaboratory
        GET /certificates/templates/versions/{versionId:guid}/preview  SeeLaboratory
        GET /certificates/{id:guid}/csv                         SeeCertificates
        GET /certificates/{id:guid}/file                        SeeCertificates
        GET /certificates/{id:guid}/json                        SeeCertificates
        GET /equipment/documents/{id:guid}                      SeeLaboratory
        GET /equipment/export/{file}                            SeeLaboratory
        GET /equipment/import/template/{file}                   KeepEquipment
        GET /health/live                                        anybody
        GET /health/ready                                       anybody
        GET /lots/{lotId:guid}/samples/{sampleId:guid}/pictures/{file}  SeeLaboratory
        GET /openapi/{documentName}.json                        anybody
        GET /record/export                                      ReadRecord
        GET /review/{runId:guid}/pictures/{file}                SeeLaboratory
        GET /verify/file/{sha256:regex(^[0-9a-fA-F]{{64}}$)}    anybody
        GET /verify/keys                                        anybody
        POST /activate                                          anybody
        POST /api/v1/evaluations                                token Evaluate
        POST /enrol/code                                        anybody
        POST /hand-over                                         anybody
        POST /lock                                              anybody
        POST /sign-off                                          anybody
        POST /sign-on                                           anybody
        POST /sign-on/badge                                     anybody
        POST /sign-on/code                                      anybody
        POST /sign-on/passkey                                   anybody
        POST /sign-on/passkey/question                          anybody
        POST /sign-on/pin                                       anybody
        POST /terminals/enrol-here                              KeepTerminals
        POST /verify/file                                       anybody
        """;

    /// <summary>The rows of a table: what, and who.</summary>
    public static IReadOnlyDictionary<string, string> Rows(string table) =>
        table.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(line => line.Split("  ", 2, StringSplitOptions.TrimEntries)).ToDictionary(parts => parts[0], parts => parts[1], StringComparer.Ordinal);
}
