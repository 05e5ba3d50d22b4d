namespace ParticleLims.Web.Shell;

/// <summary>Keeps the sign-on name that was typed into a form which was refused. Passwords and codes are typed anew: they never come back to a page.</summary>
internal static class TypedName
{
    private const int Longest = 256;
    private static readonly SealedNote Note = new("particlelims-typed", "typed-name");

    public static void Keep(HttpContext context, string? name)
    {
        if (name is { Length: > 0 and <= Longest })
        {
            Note.Give(context, name);
        }
    }

    public static string? Take(HttpContext context) => Note.Take(context);
}
