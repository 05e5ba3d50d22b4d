namespace ParticleLims.Web.Shell;

/// <summary>Carries a refusal from a form's post to the page shown after it. Sealed by the server, so that nobody else's words come onto the page.</summary>
internal static class RefusalCookie
{
    private static readonly SealedNote Note = new("particlelims-refusal", "refusal");

    public static void Give(HttpContext context, string words) => Note.Give(context, words);

    public static string? Take(HttpContext context) => Note.Take(context);
}
