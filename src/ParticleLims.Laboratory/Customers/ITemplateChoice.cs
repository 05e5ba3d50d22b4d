using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Customers;

/// <summary>Looks at which template of certificates a customer chooses.</summary>
public interface ITemplateChoice
{
    /// <summary>Refuses a template that is unknown or has no version in force.</summary>
    /// <exception cref="RefusedException">It cannot be chosen.</exception>
    Task RequireAsync(LaboratoryContext data, Guid template, DateTimeOffset instant, CancellationToken cancellation);
}
