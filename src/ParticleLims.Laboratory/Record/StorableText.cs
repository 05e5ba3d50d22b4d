using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>Refuses, in words and alike on both databases, texts that one of them would cut off or not take at all.</summary>
public static class StorableText
{
    /// <summary>Looks at every text that the deed is about to write.</summary>
    /// <exception cref="RefusedException">A text is too long for its place, or holds what is no character.</exception>
    internal static void Require(LaboratoryContext data)
    {
        foreach (var entry in data.ChangeTracker.Entries().Where(entry => entry.State is EntityState.Added or EntityState.Modified))
        {
            foreach (var property in entry.Metadata.GetProperties())
            {
                if (property.ClrType == typeof(string) && entry.CurrentValues[property] is string text)
                {
                    Require(property, text);
                }
            }
        }
    }

    /// <summary>Refuses a text with which nothing can be found, because it can stand nowhere.</summary>
    /// <exception cref="RefusedException">It holds what is no character.</exception>
    public static void Require(string text)
    {
        if (!IsText(text))
        {
            throw new RefusedException("text-unreadable", "A text holds something that is no character. Type it anew.");
        }
    }

    private static void Require(IProperty property, string text)
    {
        if (property.GetMaxLength() is { } most && text.Length > most)
        {
            throw new RefusedException("text-too-long", string.Create(CultureInfo.InvariantCulture, $"The {Words(property)} has {text.Length} characters; at most {most} are kept. Shorten it."), Member(property));
        }

        if (!IsText(text))
        {
            throw new RefusedException("text-unreadable", $"The {Words(property)} holds something that is no character. Type it anew.", Member(property));
        }
    }

    // A NUL and half a surrogate pair can stand in no text column of PostgreSQL.
    private static bool IsText(string text)
    {
        for (var index = 0; index < text.Length; index++)
        {
            if (char.IsHighSurrogate(text[index]) && index + 1 < text.Length && char.IsLowSurrogate(text[index + 1]))
            {
                index++;
            }
            else if (text[index] == '\0' || char.IsSurrogate(text[index]))
            {
                return false;
            }
        }

        return true;
    }

    private static string Words(IProperty property) =>
        string.Concat(property.Name.Select((letter, index) => index > 0 && char.IsUpper(letter) ? $" {char.ToLowerInvariant(letter)}" : char.ToLowerInvariant(letter).ToString()));

    private static string Member(IProperty property) => char.ToLowerInvariant(property.Name[0]) + property.Name[1..];
}
