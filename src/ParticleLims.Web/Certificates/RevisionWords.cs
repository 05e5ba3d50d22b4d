namespace ParticleLims.Web.Certificates;

/// <summary>What a revision changes, and why.</summary>
internal sealed record RevisionWords(string WhatChanged, string Reason);
