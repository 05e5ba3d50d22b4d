using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>What a certificate is made from: a lot, what is known of it, and the result of one of its samples.</summary>
internal sealed record CertificateSubject(Lot Lot, LotEvidence Evidence, SampleResult Result);
