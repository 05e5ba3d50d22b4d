using System.Globalization;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>A reference material as it is entered.</summary>
public sealed record MaterialCard(string Name, string Batch, string Certificate, DateOnly GoodUntil, string Points)
{
    /// <summary>What people call it; empty where neither name nor batch stands there.</summary>
    public string Label => Name.Trim().Length + Batch.Trim().Length == 0 ? string.Empty : $"{Name.Trim()}, batch {Batch.Trim()}";

    /// <summary>Refuses, in words, what is no reference material, and a curve that cannot be read.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    internal void Check()
    {
        if (string.IsNullOrWhiteSpace(Name) || string.IsNullOrWhiteSpace(Batch) || string.IsNullOrWhiteSpace(Certificate))
        {
            throw new RefusedException("material-incomplete", "A reference material has a name, a batch and a certificate.", string.IsNullOrWhiteSpace(Name) ? "name" : string.IsNullOrWhiteSpace(Batch) ? "batch" : "certificate");
        }

        try
        {
            CertificateCurve.Through(ReferenceMaterial.PointsOf(Points));
        }
        catch (Exception fault) when (fault is FormatException or ArgumentException)
        {
            throw new RefusedException("material-curve", $"The curve cannot be read: {fault.Message.Split(" (Parameter", StringSplitOptions.None)[0]} Write a line for each point: aperture in µm, passing in %, its standard uncertainty in %.", "points");
        }
    }

    /// <summary>Adds the material within a running deed.</summary>
    internal ReferenceMaterial Add(DeedScope scope)
    {
        Check();
        var added = new ReferenceMaterial
        {
            Id = scope.NewId(), Name = Name.Trim(), Batch = Batch.Trim(), Certificate = Certificate.Trim(), GoodUntil = GoodUntil, Points = Points.Trim(), AddedAt = scope.Now, AddedByName = scope.By.Name,
        };
        scope.Data.Add(added);
        return added;
    }

    /// <summary>Whether its certificate no longer counts on that day, in words; null while it does.</summary>
    internal string? ExpiredWords(DateOnly today) => GoodUntil < today
        ? string.Create(CultureInfo.InvariantCulture, $"The certificate {Certificate.Trim()} counted until {GoodUntil:yyyy-MM-dd}: the material comes in, and no check takes it any more.")
        : null;
}
