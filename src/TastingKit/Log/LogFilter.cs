namespace TastingKit;

/// <summary>One narrowing of a log to part of its cups.</summary>
/// <param name="Description">What was kept, in words or as the condition was written.</param>
/// <param name="CupsBefore">Cups before it.</param>
/// <param name="CupsAfter">Cups after it.</param>
public sealed record LogFilter(string Description, int CupsBefore, int CupsAfter)
{
    /// <summary>How many of how many cups were kept, and by what.</summary>
    public override string ToString() => FormattableString.Invariant($"{CupsAfter} of {CupsBefore} cups: {Description}");
}
