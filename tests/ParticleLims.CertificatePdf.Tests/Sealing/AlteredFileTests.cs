using System.Collections.Concurrent;
using ParticleLims.CertificatePdf.Sealing;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>Ten thousand files made from a sealed certificate: none is taken for one, and each is answered.</summary>
public sealed class AlteredFileTests
{
    private const int Seed = 20261126;
    private const int Files = 10_000;

    // Whoever has a key of his own can seal anything; such a file is told apart, never genuine.
    private static readonly string[] _sealedByAnother = ["signed again by another key", "bytes changed and sealed again by another key", "structure changed and sealed again by another key"];

    [Fact]
    public void None_of_ten_thousand_altered_files_is_accepted()
    {
        var original = SealedFile.Typical;
        var other = SealedFile.Of(Certificates.Typical with { Number = "C-26-00043", Conformity = "Three of four results conform." });
        using var alterations = new Alterations(Seed, original, other, Certificates.Keys.Certificates()[^1]);
        var wrong = new ConcurrentBag<string>();
        var outcomes = new ConcurrentDictionary<(string Kind, SealOutcome Outcome), int>();
        Parallel.For(0, Files, trial =>
        {
            var altered = alterations.Make(trial);
            var kind = Alterations.Kinds[trial % Alterations.Kinds.Count];
            if (OutcomeOf(altered, wrong) is not { } outcome)
            {
                return;
            }

            outcomes.AddOrUpdate((kind, outcome), 1, (_, count) => count + 1);
            if (outcome == SealOutcome.Genuine || (outcome == SealOutcome.KeyUnknown && !_sealedByAnother.Contains(kind)))
            {
                wrong.Add($"{altered.What}: {outcome}");
            }
        });
        wrong.ShouldBeEmpty();
        SealedFile.Outcome(original).ShouldBe(SealOutcome.Genuine);
        SealedFile.Outcome(other).ShouldBe(SealOutcome.Genuine);
        // The alterations are what they say: who signs again is found out by the key alone, and what was sealed again is opened and read.
        _sealedByAnother.ShouldAllBe(kind => outcomes.ContainsKey(new ValueTuple<string, SealOutcome>(kind, SealOutcome.KeyUnknown)));
        outcomes.ShouldContainKey(("structure changed and sealed again by another key", SealOutcome.Changed));
    }

    /// <summary>What the check says; null where it threw, which is noted with the file that made it do so.</summary>
    private static SealOutcome? OutcomeOf(AlteredFile altered, ConcurrentBag<string> wrong)
    {
        try
        {
            return SealedFile.Outcome(altered.Bytes);
        }
        catch (Exception thrown)
        {
            wrong.Add($"{altered.What}: {thrown.GetType().Name}, {thrown.Message}");
            return null;
        }
    }
}
