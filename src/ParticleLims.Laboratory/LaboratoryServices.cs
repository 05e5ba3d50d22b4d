using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using ParticleLims.Laboratory.AccessReviews;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Cautions;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.Histories;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Signatures;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Templates;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory;

/// <summary>What a laboratory can do, as a list of abilities.</summary>
public static class LaboratoryServices
{
    /// <summary>Adds them all. The storage, the certificate's drawing, the check of reading formats, the outside of heads, the questions to browsers and the sealing of secrets are added beside.</summary>
    public static IServiceCollection AddLaboratory(this IServiceCollection services)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton<IPasswordHasher<Person>>(_ => new PasswordHasher<Person>(Microsoft.Extensions.Options.Options.Create(PasswordHashing)));
        services.TryAddSingleton<IPasskeyCeremony, WithoutBrowser>();
        services.TryAddSingleton<ISecretSealing, WithoutBrowser>();
        services.AddSingleton<DatabaseOpening>();
        services.AddSingleton<WritePath>().AddSingleton<ReadPath>().AddSingleton<RecordReading>().AddSingleton<RecordInspection>().AddSingleton<RecordExporting>().AddSingleton<SignatureReading>();
        services.AddSingleton<IBelongings, SampleBelongings>().AddSingleton<IBelongings, RunBelongings>().AddSingleton<IBelongings, InvestigationBelongings>().AddSingleton<IBelongings, CertificateBelongings>().AddSingleton<IBelongings, FailureBelongings>().AddSingleton<IBelongings, DeliveryBelongings>().AddSingleton<IBelongings, ReworkBelongings>();
        services.AddSingleton<ISignedThing, SignedReview>().AddSingleton<ISignedThing, SignedOverride>().AddSingleton<ISignedThing, SignedConclusion>().AddSingleton<ISignedThing, SignedPlan>().AddSingleton<ISignedThing, SignedRework>().AddSingleton<ISignedThing, SignedCase>().AddSingleton<ISignedThing, SignedDecision>().AddSingleton<ISignedThing, SignedSampling>();
        services.AddSingleton<ISignedThing, SignedDocument<Method, MethodVersion>>().AddSingleton<ISignedThing, SignedDocument<Specification, SpecificationVersion>>().AddSingleton<ISignedThing, SignedDocument<CertificateTemplate, CertificateTemplateVersion>>();
        services.AddSingleton<IAuthority, Authority>().AddSingleton<SecretTries>().AddSingleton<SecondStep>().AddSingleton<SecondFactors>().AddSingleton<Passkeys>().AddSingleton<Activations>().AddSingleton<SignOn>().AddSingleton<PinSignOn>().AddSingleton<Sessions>().AddSingleton<SigningPolicies>().AddSingleton<ISigningGround, SigningGround>().AddSingleton<ISecretCheck>(all => all.GetRequiredService<SignOn>());
        services.AddSingleton<Accounts>().AddSingleton<Badges>().AddSingleton<ApiTokens>().AddSingleton<TerminalRegister>().AddSingleton<CautionReading>();
        services.AddSingleton<LaboratorySetUp>().AddSingleton<SettingsKeeping>();
        services.AddSingleton<OutgoingKeeping>().AddSingleton<OutgoingSending>().AddSingleton<IAttachmentSource, HeadFiles>();
        services.AddSingleton<AlertRaising>().AddSingleton<AlertKeeping>().AddSingleton<WrongSecretsWatch>().AddSingleton<ClockWatch>();
        services.AddSingleton<HeadKeeping>().AddSingleton<HeadDeparture>().AddSingleton<AccessReviewing>();
        services.AddSingleton<Today.TodayReading>();
        services.AddSingleton<CustomerKeeping>().AddSingleton<ContactKeeping>().AddSingleton<ProductKeeping>();
        services.AddSingleton<MethodKeeping>().AddSingleton<MethodAuthorising>().AddSingleton<DocumentApproval<Method, MethodVersion>>();
        services.AddSingleton<SpecificationKeeping>().AddSingleton<NarrowLimits>().AddSingleton<DraftScoring>().AddSingleton<ProductTrendReading>().AddSingleton<DocumentApproval<Specification, SpecificationVersion>>();
        services.AddSingleton<ITemplateChoice, TemplateChoice>().AddSingleton<ITemplateTrial, TemplateTrial>().AddSingleton<TemplateKeeping>().AddSingleton<DocumentApproval<CertificateTemplate, CertificateTemplateVersion>>().AddSingleton<TemplatePreview>();
        services.AddSingleton<SieveRegister>().AddSingleton<SieveCare>().AddSingleton<SieveMeasuring>().AddSingleton<ToleranceKeeping>().AddSingleton<EquipmentDocuments>().AddSingleton<EquipmentLife<TestSieve>>().AddSingleton<SievingUnitRegister>().AddSingleton<UnitChecking>().AddSingleton<EquipmentLife<SievingUnit>>();
        services.AddSingleton<CheckWeightRegister>().AddSingleton<EquipmentLife<CheckWeight>>().AddSingleton<BalanceTesting>();
        services.AddSingleton<RegisterImport>().AddSingleton<RegisterReading>();
        services.AddSingleton<EquipmentFailing>().AddSingleton<EquipmentFailureReading>().AddSingleton<CertificateDoubts>();
        services.AddSingleton<BalanceRegister>().AddSingleton<EquipmentLife<Balance>>().AddSingleton<ReadingFormatKeeping>();
        services.AddSingleton<LotReception>().AddSingleton<LotCorrection>().AddSingleton<CorrectionReading>().AddSingleton<LotSearch>().AddSingleton<SampleReception>().AddSingleton<SampleCorrection>().AddSingleton<SamplingAccepting>();
        services.AddSingleton<RunStart>().AddSingleton<RunWeighing>().AddSingleton<RunKeying>().AddSingleton<RunSieving>().AddSingleton<RunPreparing>().AddSingleton<RunScanning>().AddSingleton<RunLooking>().AddSingleton<RunSubmission>().AddSingleton<IOutOfSpecification, InvestigationOpening>().AddSingleton<RunReading>().AddSingleton<RunChoosing>().AddSingleton<TareHistory>().AddSingleton<EquipmentUses>().AddSingleton<FitnessOverriding>().AddSingleton<AuthorisationOverriding>().AddSingleton<SieveFitnessReading>().AddSingleton<UnitFitnessReading>().AddSingleton<FreeEvaluation>();
        services.AddSingleton<RunReview>().AddSingleton<RunChanges>().AddSingleton<InvestigationWork>().AddSingleton<HypothesisWork>().AddSingleton<RetestWork>().AddSingleton<CaseFiguresReading>();
        services.AddSingleton<ILotCertificates, LotCertificateLife>().AddSingleton<LotDecision>().AddSingleton<LotReopening>().AddSingleton<LotRework>();
        services.AddSingleton<IFollowsDeeds, CertificateNews>().AddSingleton<IFollowsDeeds, LotNews>().AddSingleton<IOutgoingRefusals, DeliveryRefusals>().AddSingleton<IAttachmentSource, CertificatePdfs>().AddSingleton<IAttachmentSource, CertificateTwins>();
        services.AddSingleton<DeliverySending>().AddSingleton<DeliveryReading>().AddSingleton<MailTextKeeping>();
        services.AddSingleton<DemonstrationLaboratory>();
        return services.AddSingleton<CertificateIssue>().AddSingleton<SamplesToCertify>().AddSingleton<CertificateLife>().AddSingleton<CertificateShelf>().AddSingleton<CertificateCheck>().AddSingleton<NewestCertificate>();
    }

    /// <summary>PBKDF2-HMAC-SHA512 with 210 000 iterations (OWASP Password Storage Cheat Sheet).</summary>
    private static PasswordHasherOptions PasswordHashing => new() { IterationCount = 210_000 };
}
