namespace ParticleLims.CertificatePdf.Record;

/// <summary>One event as it is printed.</summary>
/// <param name="Number">Its number.</param>
/// <param name="When">When, in the laboratory's time.</param>
/// <param name="Who">Who and where.</param>
/// <param name="What">The deed in words, with its reason.</param>
/// <param name="About">What it is about.</param>
/// <param name="Values">Old and new values in words.</param>
/// <param name="Hash">Its hash.</param>
public sealed record TrailRow(string Number, string When, string Who, string What, string About, string Values, string Hash);

/// <summary>A part of the audit trail to be printed.</summary>
/// <param name="Laboratory">The laboratory's name.</param>
/// <param name="Asked">What was asked for, in words.</param>
/// <param name="TimeZone">The zone of the times.</param>
/// <param name="PrintedAt">When it was printed, in that zone.</param>
/// <param name="Demonstration">Whether everything in it is invented.</param>
/// <param name="Rows">The events, newest first.</param>
public sealed record Trail(string Laboratory, string Asked, string TimeZone, string PrintedAt, bool Demonstration, IReadOnlyList<TrailRow> Rows);
